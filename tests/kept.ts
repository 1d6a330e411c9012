import { configurations } from "../src/sheet/configuration.ts";

// The tests go over every template, file after file: what is worked out of each serves all files of a process.
configurations.most = 64;
