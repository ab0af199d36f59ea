/** The car that carries its load, as lines and texts: window and printed page paint the same ones. */
import type { HeightState } from '@core/aero'
import type { Axle } from '@core/schema'
import type { Statement } from '@core/uncertainty'

/** What an axle carries and how much room is left under the tray there. */
export interface LoadedAxle {
  /** N, + is down. */
  readonly loadN: Statement
  readonly clearanceMm: Statement
  readonly state: HeightState
}

/** A load lying on the car. */
export interface Bag {
  readonly xMm: number
  readonly yMm: number
  readonly label: string
}

export interface LoadedCar {
  readonly wheelbaseMm: number
  readonly trackMm: Readonly<Record<Axle, number>>
  readonly axles: Readonly<Record<Axle, LoadedAxle>>
  /** Room under the tray at rest without any load, mm; null where it is not known when it touches. */
  readonly roomMm: Readonly<Record<Axle, number | null>>
  readonly bags: readonly Bag[]
  /** Where the load acts and where the weight does, mm behind the front axle; null where it is not told. */
  readonly centreMm: Statement | null
  readonly weightAtMm: number | null
}

/** The look of a line or a text: a class in both style sheets. */
export type Look =
  | 'ground' | 'hatch' | 'shell' | 'tray' | 'trayDown' | 'trayUnknown' | 'wheel' | 'shaft' | 'hub' | 'front' | 'rear' | 'open'
  | 'whisker' | 'room' | 'bag' | 'centre' | 'weight' | 'axis' | 'name' | 'load' | 'bound' | 'ends' | 'down'

export type Shape =
  | { readonly kind: 'path'; readonly look: Look; readonly also?: Axle; readonly d: string }
  | {
      readonly kind: 'text'; readonly look: Look; readonly also?: Axle; readonly x: number; readonly y: number
      readonly anchor: 'start' | 'middle' | 'end'; readonly text: string
      /** Height of the letters, drawing units: smaller where the text would leave its room. */
      readonly size: number
    }

/** Texts that stand beside an axle, in the builder's words and units. */
export interface AxleTexts {
  readonly name: string
  readonly load: string
  /** The load's interval, or why it is a bound. */
  readonly ends: string
  readonly room: string
  /** Interval of the room. */
  readonly roomEnds: string
}
export type Texts = Readonly<Record<Axle, AxleTexts>>

/** A drawing in its own units, to be scaled to its place. */
export interface Drawing {
  /** Where it begins. */
  readonly x: number
  readonly width: number
  readonly height: number
  readonly shapes: readonly Shape[]
}
