/** Every screen and its address: what stands here is routed, and visited by the tests that look at every screen. */
import { STEP_NAMES, type StepName } from './stepNames'

const ofStep = Object.fromEntries(STEP_NAMES.map((name) => [name, `/car/:chassisId/${name}`])) as Record<StepName, string>

export const ADDRESSES = {
  library: '/', overview: '/car/:chassisId/overview', ...ofStep, live: '/car/:chassisId/live', help: '/help',
  preferences: '/preferences',
} as const
