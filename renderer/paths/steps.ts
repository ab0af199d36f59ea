/** The one path through the method. The order is the order of the work. */
import type { Component } from 'vue'
import { STEP_NAMES, type StepName } from './stepNames'

export type { StepName } from './stepNames'

type Lazy = () => Promise<{ default: Component }>

export interface Step { readonly name: StepName; readonly screen: Lazy }

/** Each step's screen by its folder's name; fetched when first shown. */
const screens = import.meta.glob<{ default: Component }>('../screens/*/*Screen.vue')
const addressOf = (name: string): string => `../screens/${name}/${name[0]!.toUpperCase()}${name.slice(1)}Screen.vue`

export const STEPS: readonly Step[] = STEP_NAMES.flatMap((name) => {
  const screen = screens[addressOf(name)]
  return screen ? [{ name, screen }] : []
})
