/** What a chart is given: series in the units shown, and the table that says the same. */
export interface ChartPoint {
  readonly x: number
  readonly y: number
  /** Half-lengths of the error bars. */
  readonly ux?: number
  readonly uy?: number
  /** What hover and the keyboard say of the point. */
  readonly said?: string
}

export interface Series {
  readonly label: string
  /** A colour role of the look, such as `front`, `rear`, `whole`, `bound`, `lead`, `stop`. */
  readonly role: string
  /** `band` fills to the next series, an `edge`, which is its other side. */
  readonly look: 'points' | 'line' | 'band' | 'edge'
  readonly points: readonly ChartPoint[]
  readonly dashed?: boolean
  readonly hidden?: boolean
  /** Filled with the ground's colour, so that colour is not the only carrier. */
  readonly hollow?: boolean
  readonly mark?: 'circle' | 'rect' | 'triangle' | 'crossRot' | 'rectRot' | 'star'
}

export interface ChartTable {
  readonly heads: readonly string[]
  readonly rows: readonly (readonly (string | number)[])[]
}
