import { crc32, deflateSync } from "node:zlib";

/** The invented sign of an invented office, 320 × 80 pixels. */
export const invented =
  "data:image/png;base64," +
  "iVBORw0KGgoAAAANSUhEUgAAAUAAAABQAgMAAAAVX0QWAAAADFBMVEX///8kUF+KbR8AAABx2XjxAAACy0lEQVR42u2Yu27bMBSG" +
  "PwpUYGTiEBcdjY55hS58g7qAZRSZgk59hE6BkCFDn8KjYWlw9gLlo2QMoA6agiAWxA6ubV1tqZEbDT6AAUGXw0/8/3NIGU5xil6F" +
  "7iSL0zXWLqFQfSeUsu+ESvSdUHdjxOMRClBHJ/Q04E4qrrje2PU+exVXZOYga0R3HJmaUYgMqvZ9Ws+hCxega3vJNqGCrBFVHYEC" +
  "gSC6J1p2QqjXPwNmP6HOd0RNdWkLVuEG3gZtCOPq05KlNfvaiNzZsFI499M94NkQLxoGgIWYCR54EOAR5B1RQyg2Eo2FhiFCg7sd" +
  "U2Q112LMRfmVZc6UwM9M/Wh2xksgyWmOzPnjgMqSAARRYdpCgpAgBL0KUTbMyOlkhsoMJDeaWwxgYsCGVdpZSGwDle36JpUQIy2J" +
  "KDy3mWqD0TFGlRLq/NKsmhuprjkUIsF83IF4e3MMPVbFhKII5mZvKhDIf+iHug4+Xit18JXl3gnI6lvR2XOd84APY4kiEbuhEsZC" +
  "b51t0WijKPtQ5aYSQRQsxfpIsy6v7exOsnorAZLhYUKzLrAEDyzDyY6JbCc07oRYeLqUUNfsES3E+Va6zGkSkyvtWkK5zW6sgQh+" +
  "by6tICPRCoxdYk1WNEBsXmm17OnOQR6qxDcnVPkp7SGh7u5j5TiEIr+M9Yvw73q86fHRryMROrfFM4PzFgkVhdpm4JfGfPZfQ5im" +
  "5VMtCHX5q9nhx2zE6JIP88GcOZf+6+bwPbz7Bkz9s6vnL84V0xmzxglFYQ+9joeXR776s+fU5yy99R/a2AaCTitF1uxNXhx/4QM4" +
  "i5bGro8pIyCdOq0IVWEzvDXKXXeV8gjAKPVHAC/c+COuGyfUdX/ffGdxDek8XfiL64aEAvDKW5/zp/LQN35DQlH6mKss3MHrarn8" +
  "9FNjUWQrI73FmqLKMvWMUFds2E9xiv8afwCVTLJeCTMqlwAAAABJRU5ErkJggg==";

/** A field of one colour, 24 × 8 pixels. */
export const field =
  "data:image/jpeg;base64," +
  "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABsSFBcUERsXFhceHBsgKEIrKCUlKFE6PTBCYFVlZF9VXVtqeJmBanGQc1tdhbWGkJ6j" +
  "q62rZ4C8ybqmx5moq6T/2wBDARweHigjKE4rK06kbl1upKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSk" +
  "pKSkpKSkpKT/wAARCAAIABgDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAX/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QA" +
  "FQEBAQAAAAAAAAAAAAAAAAAAAAP/xAAUEQEAAAAAAAAAAAAAAAAAAAAA/9oADAMBAAIRAxEAPwCcAogAA//Z";

/** A white PNG of that size in pixels, as base64. */
export function blankPng(width: number, height: number): string {
  const chunk = (kind: string, data: Buffer): Buffer => {
    const named = Buffer.concat([Buffer.from(kind, "latin1"), data]);
    const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
    length.writeUInt32BE(data.length);
    check.writeUInt32BE(crc32(named));
    return Buffer.concat([length, named, check]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  // Eight bits a pixel, in grey.
  head[8] = 8;
  const lines = Buffer.concat(
    Array.from({ length: height }, () => Buffer.concat([Buffer.from([0]), Buffer.alloc(width, 255)])),
  );
  const sign = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const parts = [sign, chunk("IHDR", head), chunk("IDAT", deflateSync(lines)), chunk("IEND", Buffer.alloc(0))];
  return Buffer.concat(parts).toString("base64");
}
