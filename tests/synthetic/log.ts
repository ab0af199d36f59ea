/** A long log for the browser and the unit tests: 200 Hz for 20 minutes by a logger with names of its own. */
import { Draws, simulatedLog, type LogPlan, type SimulatedLog } from '../../seeds/simulator'

export const LONG_LOG: LogPlan = {
  rateHz: 200, lengthS: 1200, restS: 6, circleS: 9, levelMs2: 6.4, radiusM: 5, noiseMs2: 0.6, memory: 0.8, blowMs2: 20,
  leanDeg: { x: 4, y: -2 }, biasMs2: { x: 0.15, y: -0.2, z: 0.1 },
  head: ['# pocket logger, run 7', 'tick;Q1;Q2;Q3;wheel'], delimiter: ';', faultsOfEach: 7,
}

export const longLog = (seed: number, plan: LogPlan = LONG_LOG): SimulatedLog => simulatedLog(new Draws(seed), plan)
