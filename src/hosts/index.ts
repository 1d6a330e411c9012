export * from "./host.ts";
