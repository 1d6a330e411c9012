/** For webpack: a module whose text the project's own code writes, from what stands behind the question mark. */
export default function writtenModule() {
  return this.getOptions().write(this.resourceQuery);
}
