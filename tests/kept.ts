import { KeptByTemplate } from "../src/sheet/keptByTemplate.ts";

// The tests go over every template, file after file: what is worked out of each serves all files of a process.
KeptByTemplate.most = 100;
