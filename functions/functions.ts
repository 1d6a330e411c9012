/** The worksheet bundle: gives every function to the spreadsheet program under its id. */
import { register } from "./register.ts";

register(CustomFunctions);
