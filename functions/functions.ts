/** The worksheet bundle: gives every function to the spreadsheet program under its id. */
import { register } from "./register.ts";

// At once, before anything waits: cells call functions as soon as they are there. Outside the program nobody calls them.
if (typeof CustomFunctions !== "undefined") register(CustomFunctions);
