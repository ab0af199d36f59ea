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
  /**
   * False where a source is a Student t of two degrees of freedom or fewer: it has no variance, so that
   * mean and standard deviation of the trials tell nothing, however many there are.
   */
  readonly hasMoments: boolean
  /** Values of block `index` of a seeded run, one array per output. */
  block(seed: number, index: number, size: number): Float64Array[]
}

/** Trials drawn at a time; the draws of all sources of one batch stay in the processor's cache. */
const BATCH = 500

/** One part of an input: where its source's draws begin, and the contribution. */
interface MixedPart { readonly at: number; readonly contribution: number }

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
  const parts = variants.map(({ inputs }) => inputs.map((input) =>
    input.parts.map(({ source, contribution }): MixedPart => ({ at: index(source) * BATCH, contribution }))))
  const cumulative: number[] = []
  variants.reduce((sum, { weight }) => cumulative[cumulative.push(sum + weight) - 1]!, 0)

  const block = (seed: number, blockIndex: number, size: number): Float64Array[] => {
    const stream = new Stream(seed, blockIndex)
    const draws = new Float64Array(sources.length * BATCH)
    const scales = new Float64Array(BATCH)
    const outputs = new Float64Array(outputCount)
    const results = Array.from({ length: outputCount }, () => new Float64Array(size))
    const picks = new Int32Array(BATCH)
    const mixed = variants.map(({ inputs }) => new Float64Array(inputs.length * BATCH))
    const inputs = variants.map((variant) => new Float64Array(variant.inputs.length))
    for (let from = 0; from < size; from += BATCH) {
      const count = Math.min(BATCH, size - from)
      drawSources(sources, stream, draws, scales, count)
      if (variants.length > 1) for (let t = 0; t < count; t++) picks[t] = chosen(cumulative, stream.uniform())
      for (let v = 0; v < variants.length; v++) {
        if (variants.length > 1 && !picks.includes(v)) continue
        mix(variants[v]!.inputs, parts[v]!, draws, mixed[v]!, count)
        evaluate(variants[v]!.model, mixed[v]!, picks, v, count, inputs[v]!, outputs, results, from)
      }
    }
    return results
  }
  return { outputCount, hasMoments: sources.every(hasVariance), block }
}

/** A standard t has a variance from more than two degrees of freedom on (JCGM 101:2008, 6.4.9.4). */
const hasVariance = ({ shape, dof }: Source): boolean => shape !== 't' || dof > 2

/** Inputs of one batch, input by input: each its value plus its sources' draws times their contributions. */
function mix(
  inputs: readonly Uncertain[], parts: readonly (readonly MixedPart[])[], draws: Float64Array, mixed: Float64Array,
  count: number,
): void {
  for (let i = 0; i < inputs.length; i++) {
    const to = i * BATCH
    const { value } = inputs[i]!
    const [first, ...others] = parts[i]!
    if (first === undefined) mixed.fill(value, to, to + count)
    else for (let t = 0; t < count; t++) mixed[to + t] = value + first.contribution * draws[first.at + t]!
    for (const { at, contribution } of others) {
      for (let t = 0; t < count; t++) mixed[to + t]! += contribution * draws[at + t]!
    }
  }
}

/** The model for every trial of the batch that picked this variant. */
function evaluate(
  model: Variant['model'], mixed: Float64Array, picks: Int32Array, variant: number, count: number,
  inputs: Float64Array, outputs: Float64Array, results: readonly Float64Array[], from: number,
): void {
  const inputCount = inputs.length
  for (let t = 0; t < count; t++) {
    if (picks[t] !== variant) continue
    for (let i = 0, at = t; i < inputCount; i++, at += BATCH) inputs[i] = mixed[at]!
    model(inputs, outputs)
    for (let o = 0; o < results.length; o++) results[o]![from + t] = outputs[o]!
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
