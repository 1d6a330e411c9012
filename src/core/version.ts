/** Version of the calculation: what KERN.VERSION says, and what a check sheet remembers that it was built with. */
export const version = "0.2.0";
