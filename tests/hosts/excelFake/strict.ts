/** An error of the spreadsheet program, with its code. */
export class OfficeError extends Error {
  override readonly name = "RichApi.Error";
  constructor(
    readonly code: string,
    message: string = code,
  ) {
    super(message);
  }
}

/** The fake was used as the program does not allow: always a fault of the code under test. */
export class Misuse extends Error {
  override readonly name = "Misuse";
}

export interface FakeContext {
  /** `size`: characters of what is sent with it. */
  readonly enqueue: (label: string, work: () => unknown, size?: number) => void;
  /** What stands in `object.context`. */
  readonly face: object;
}

export interface Handle<T> {
  readonly context: FakeContext;
  readonly kind: string;
  /** What the object stands for, once the request arrives; throws where it is not there. */
  readonly target: () => T;
}

export interface Property<T> {
  readonly read: (target: T) => unknown;
  readonly write?: (target: T, value: never) => void;
}

export interface Shape<T> {
  readonly kind: string;
  readonly properties?: Readonly<Record<string, Property<T>>>;
  /** Objects an object leads to. */
  readonly parts?: Readonly<Record<string, (self: Handle<T>) => object>>;
  readonly methods?: Readonly<Record<string, (self: Handle<T>, ...args: never[]) => unknown>>;
  /** What a collection holds. */
  readonly items?: { readonly shape: Shape<never>; readonly of: (target: T) => readonly unknown[] };
}

const handles = new WeakMap<object, Handle<unknown>>();

/** What an object handed over as an argument stands for. */
export function targetOf<T>(object: unknown, kind: string): T {
  const handle = typeof object === "object" && object !== null ? handles.get(object) : undefined;
  if (handle?.kind !== kind) throw new Misuse(`a ${kind} was expected, not ${String(handle?.kind ?? object)}`);
  return handle.target() as T;
}

/** Queues work on an object. */
export function act<T>(self: Handle<T>, what: string, work: (target: T) => unknown): void {
  self.context.enqueue(`${self.kind}.${what}`, () => work(self.target()));
}

/**
 * An object of the program: nothing can be read before it was loaded and the request came back, nothing can be set or
 * called that the shape does not
 * know. `find` says what it stands for when the request arrives: undefined where it is not there.
 */
export function strictObject<T>(
  context: FakeContext,
  shape: Shape<T>,
  find: () => T | undefined,
  orNull = false,
): object {
  const { kind, properties = {}, parts = {}, methods = {}, items } = shape;
  const loaded = new Map<string, unknown>();
  const children = new Map<string, object>();
  let isNull: boolean | undefined = orNull ? undefined : false;
  const target = (): T => {
    const found = find();
    if (found === undefined) throw new OfficeError("ItemNotFound", `${kind}: the requested resource doesn't exist`);
    return found;
  };
  const self: Handle<T> = { context, kind, target };

  const loadItems = async (names: readonly string[]): Promise<void> => {
    const { shape: itemShape, of } = items!;
    const made = of(target()).map((item) => strictObject<never>(context, itemShape, () => item as never));
    for (const [i, object] of made.entries()) await loaders.get(object)!(names, of(target())[i]);
    loaded.set("items", made);
  };
  const loadNow = async (names: readonly string[], found: unknown): Promise<void> => {
    for (const name of names) loaded.set(name, structuredClone(await properties[name]!.read(found as T)));
  };
  const load = (what: unknown): object => {
    const names = (Array.isArray(what) ? (what as string[]) : String(what).split(",")).map((name) => name.trim());
    const ofItems = names.filter((name) => name.startsWith("items/")).map((name) => name.slice("items/".length));
    const own = names.filter((name) => !name.startsWith("items/"));
    for (const name of own)
      if (!Object.hasOwn(properties, name)) throw new Misuse(`${kind} has no property “${name}” to load`);
    for (const name of ofItems)
      if (!items || !Object.hasOwn(items.shape.properties ?? {}, name))
        throw new Misuse(`what ${kind} holds has no property “${name}” to load`);
    context.enqueue(`${kind}.load(${names.join(",")})`, async () => {
      if (orNull) {
        isNull = find() === undefined;
        if (isNull) return;
      }
      await loadNow(own, target());
      if (ofItems.length > 0) await loadItems(ofItems);
    });
    return proxy;
  };

  const proxy: object = new Proxy(
    {},
    {
      get(_, name) {
        // Promises and test printers ask every object for these.
        if (typeof name === "symbol" || name === "then" || name === "$$typeof" || name === "asymmetricMatch")
          return undefined;
        if (name === "context") return context.face;
        if (name === "load") return load;
        if (name === "isNullObject") {
          if (isNull === undefined) throw new Misuse(`${kind}.isNullObject was read before load and sync`);
          return isNull;
        }
        if (Object.hasOwn(properties, name) || (name === "items" && items)) {
          if (!loaded.has(name)) throw new Misuse(`${kind}.${name} was read before load and sync`);
          return loaded.get(name);
        }
        if (Object.hasOwn(parts, name)) {
          if (!children.has(name)) children.set(name, parts[name]!(self));
          return children.get(name);
        }
        if (Object.hasOwn(methods, name)) return (...args: never[]) => methods[name]!(self, ...args);
        throw new Misuse(`${kind} has no “${name}”`);
      },
      set(_, name, value) {
        const property = typeof name === "string" && Object.hasOwn(properties, name) ? properties[name] : undefined;
        if (!property?.write) throw new Misuse(`${kind}.${String(name)} cannot be set`);
        const { write } = property;
        loaded.set(name as string, value);
        context.enqueue(
          `${kind}.${String(name)} =`,
          () => write(target(), structuredClone(value) as never),
          JSON.stringify(value).length,
        );
        return true;
      },
      has: (_, name) =>
        typeof name === "string" &&
        (Object.hasOwn(properties, name) || Object.hasOwn(parts, name) || Object.hasOwn(methods, name)),
    },
  );
  handles.set(proxy, self);
  loaders.set(proxy, loadNow);
  return proxy;
}

const loaders = new WeakMap<object, (names: readonly string[], found: unknown) => Promise<void>>();
