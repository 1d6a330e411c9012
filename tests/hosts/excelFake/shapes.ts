import { blankPng } from "../blankPng.ts";
import { pictureIn } from "../../../src/sheet/index.ts";
import { guard, type SheetTarget } from "./services.ts";
import type { FakeShape } from "./state.ts";
import { act, Misuse, OfficeError, strictObject, type Handle, type Property, type Shape } from "./strict.ts";

interface ShapeTarget extends SheetTarget {
  readonly shape: FakeShape;
}

const ofShape = (key: "name" | "altTextDescription" | "left" | "top" | "lockAspectRatio"): Property<ShapeTarget> => ({
  read: ({ shape }) => shape[key],
  write: (target, value: never) => {
    guard(target, "a shape");
    target.shape[key] = value;
  },
});

/** Sides are held in whole pixels of 1/96 inch. */
const pixel = 0.75;
const snapped = (points: number): number => Math.round(points / pixel) * pixel;

/** One side takes the other along while the proportions are locked. */
const side = (key: "width" | "height", other: "width" | "height"): Property<ShapeTarget> => ({
  read: ({ shape }) => shape[key],
  write: (target, value: number) => {
    guard(target, "a shape");
    const { shape } = target;
    if (!(value > 0)) throw new OfficeError("InvalidArgument", `${key} is not ${value}`);
    if (shape.lockAspectRatio) shape[other] = snapped((shape[other] * value) / shape[key]);
    shape[key] = snapped(value);
  },
});

const shapeShape: Shape<ShapeTarget> = {
  kind: "Shape",
  properties: {
    name: ofShape("name"),
    altTextDescription: ofShape("altTextDescription"),
    left: ofShape("left"),
    top: ofShape("top"),
    lockAspectRatio: ofShape("lockAspectRatio"),
    width: side("width", "height"),
    height: side("height", "width"),
  },
  methods: {
    getAsImage: (self: Handle<ShapeTarget>, format: string) => {
      if (format !== "PNG") throw new Misuse(`the fake draws no ${format}`);
      let drawn: string | undefined;
      act(self, "getAsImage", ({ shape }) => {
        // Not the picture that was given. A pixel for the edge: assumed as the worst case, no source.
        drawn = blankPng(Math.round(shape.width / pixel) + 1, Math.round(shape.height / pixel) + 1);
      });
      return {
        get value() {
          if (drawn === undefined) throw new Misuse("ClientResult.value was read before sync");
          return drawn;
        },
      };
    },
  },
};

export const shapes: Shape<SheetTarget> = {
  kind: "ShapeCollection",
  items: { shape: shapeShape, of: (target) => target.sheet.shapes.map((shape): ShapeTarget => ({ ...target, shape })) },
  methods: {
    addImage: (self: Handle<SheetTarget>, base64: string) => {
      if (base64.includes(",")) throw new Misuse("addImage takes the text of the picture alone, without its address");
      let made: ShapeTarget | undefined;
      act(self, "addImage", (target) => {
        guard(target, "a picture");
        const [picture] = ["png", "jpeg"]
          .map((kind) => pictureIn(`data:image/${kind};base64,${base64}`))
          .filter((one) => typeof one !== "string");
        if (!picture) throw new OfficeError("InvalidArgument", "it is no picture");
        const shape: FakeShape = {
          image: base64,
          name: `Picture ${target.sheet.shapes.length + 1}`,
          altTextDescription: "",
          left: 0,
          top: 0,
          width: picture.width * 0.75,
          height: picture.height * 0.75,
          lockAspectRatio: true,
        };
        target.sheet.shapes.push(shape);
        made = { ...target, shape };
      });
      return strictObject(self.context, shapeShape, () => made);
    },
  },
};
