import { lossBySteps, tendonStressAtEvents, tendonStressBySteps, tendonStressHistory } from "./functions.ts";

/** Time-step integration, a law as an argument. */
export const timeStepFormulas = [tendonStressBySteps, lossBySteps] as const;
export const timeStepSpills = [tendonStressHistory, tendonStressAtEvents] as const;
