/**
 * What a Monte Carlo trial is: every source drawn once from its own distribution, the inputs built
 * from their sources, the model evaluated (JCGM 101:2008, 5.9 and 7). Shared sources are drawn once
 * for all inputs, so their correlation is kept.
 */
import type { Source } from '../source'
import type { Uncertain } from '../uncertain'
import { Stream } from './stream'

/** One way to compute the outputs from the inputs; several with weights are a mixture (candidate curves, say). */
export interface Variant {
  /** Share of the trials; the weights of all variants add to 1. */
  readonly weight: number
  readonly inputs: readonly Uncertain[]
  /** Reads the inputs of one trial, writes its outputs; NaN where the trial has no result. */
  readonly model: (inputs: Float64Array, outputs: Float64Array) => void
}

/** A measurement as trials see it; make one with `trialsOf`. */
export interface Trials {
  readonly outputCount: number
  /** Values of block `index` of a seeded run, one array per output. */
  block(seed: number, index: number, size: number): Float64Array[]
}

/** Trials drawn at a time; the draws of all sources of one batch stay in the processor's cache. */
const BATCH = 500

/** Inputs laid out flat: value of each input, and its parts as (source, contribution) runs. */
interface Layout {
  readonly values: Float64Array
  readonly ends: Int32Array
  readonly sources: Int32Array
  readonly contributions: Float64Array
}

/** Prepares the trials of one or more variants over their common sources. */
export function trialsOf(variants: readonly Variant[], outputCount: number): Trials {
  const sources: Source[] = []
  const indexOf = new Map<string, number>()
  const index = (source: Source): number => {
    const known = indexOf.get(source.id)
    if (known !== undefined) return known
    indexOf.set(source.id, sources.length)
    return sources.push(source) - 1
  }
  const layouts = variants.map(({ inputs }): Layout => {
    const parts = inputs.flatMap((input) => input.parts)
    let end = 0
    return {
      values: Float64Array.from(inputs, ({ value }) => value),
      ends: Int32Array.from(inputs, (input) => (end += input.parts.length)),
      sources: Int32Array.from(parts, ({ source }) => index(source) * BATCH),
      contributions: Float64Array.from(parts, ({ contribution }) => contribution),
    }
  })
  const cumulative: number[] = []
  variants.reduce((sum, { weight }) => cumulative[cumulative.push(sum + weight) - 1]!, 0)

  const block = (seed: number, blockIndex: number, size: number): Float64Array[] => {
    const stream = new Stream(seed, blockIndex)
    const draws = new Float64Array(sources.length * BATCH)
    const scales = new Float64Array(BATCH)
    const outputs = new Float64Array(outputCount)
    const results = Array.from({ length: outputCount }, () => new Float64Array(size))
    const inputs = layouts.map(({ values }) => new Float64Array(values.length))
    for (let from = 0; from < size; from += BATCH) {
      const count = Math.min(BATCH, size - from)
      drawSources(sources, stream, draws, scales, count)
      for (let t = 0; t < count; t++) {
        const v = cumulative.length === 1 ? 0 : chosen(cumulative, stream.uniform())
        mix(layouts[v]!, draws, t, inputs[v]!)
        variants[v]!.model(inputs[v]!, outputs)
        for (let o = 0; o < outputCount; o++) results[o]![from + t] = outputs[o]!
      }
    }
    return results
  }
  return { outputCount, block }
}

/** Inputs of trial t: each its value plus its sources' draws times their contributions. */
function mix(layout: Layout, draws: Float64Array, t: number, inputs: Float64Array): void {
  const { values, ends, sources, contributions } = layout
  let part = 0
  for (let i = 0; i < values.length; i++) {
    let value = values[i]!
    for (const end = ends[i]!; part < end; part++) value += contributions[part]! * draws[sources[part]! + t]!
    inputs[i] = value
  }
}

function chosen(cumulative: readonly number[], uniform: number): number {
  let v = 0
  while (v < cumulative.length - 1 && uniform >= cumulative[v]!) v++
  return v
}

/** One batch of draws of every source, source by source. Sources of one pool share their chi-square. */
function drawSources(
  sources: readonly Source[], stream: Stream, draws: Float64Array, scales: Float64Array, count: number,
): void {
  const pools = new Map<string, Float64Array>()
  sources.forEach(({ shape, dof, pool }, s) => {
    const at = s * BATCH
    if (shape === 'rectangular') {
      stream.fillRectangular(draws, at, count)
      return
    }
    stream.fillNormal(draws, at, count)
    if (shape !== 't' || !Number.isFinite(dof)) return
    let scale = pool === undefined ? undefined : pools.get(pool)
    if (!scale) {
      stream.fillScale(scales, 0, count, dof)
      scale = scales
      if (pool !== undefined) pools.set(pool, (scale = scales.slice()))
    }
    for (let t = 0; t < count; t++) draws[at + t]! *= scale[t]!
  })
}
