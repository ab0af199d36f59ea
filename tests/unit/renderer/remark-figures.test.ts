/** Figures of remarks and of a statement's small print in the window's words. */
import { remark, type Remark } from '@core/remark'
import type { Statement } from '@core/uncertainty'
import StatementView from '@renderer/parts/StatementView.vue'
import { useRemarkSentence } from '@renderer/parts/remarkSentence'
import { words } from '@renderer/words'
import { getActivePinia } from 'pinia'
import { describe, expect, it } from 'vitest'
import { createSSRApp, h, type Component } from 'vue'
import { renderToString } from 'vue/server-renderer'
import { shownWith } from '../../harness/shown'

function drawn(part: Component, props: Record<string, unknown>): Promise<string> {
  shownWith({ decimalMark: 'comma' })
  return renderToString(createSSRApp(part, props).use(getActivePinia()!).use(words).directive('fold', {}))
}

const saidOf = (about: Remark): Promise<string> => drawn({
  setup() {
    const sentence = useRemarkSentence()
    return () => h('p', sentence(about))
  },
}, {})

describe('a remark', () => {
  it('ends a value and its u by the u, two digits (JCGM 100:2008, 7.2.6)', async () => {
    const said = await saidOf(remark('zeroDrift', { axle: 'rear', driftMm: 0.123456, uMm: 0.0345678 }))
    expect(said).toContain('0,123\u00a0mm')
    expect(said).toContain('0,035\u00a0mm')
  })
  it('tells a figure without one with three digits at the most', async () => {
    const said = await saidOf(remark('loadsBadlySpread', { fromN: 1.23456, toN: 12.34567 }))
    expect(said).toContain('1,23\u00a0N')
    expect(said).toContain('12,3\u00a0N')
  })
})

describe('degrees of freedom', () => {
  const statement = (dof: number): Statement => ({
    kind: 'interval', value: 3.4, u: 0.1, dof, interval: { low: 3.2, high: 3.6, probability: 0.95 },
    method: 'propagation', extrapolated: false, shortest: null,
    budget: [{ group: 'repeatability', u: 0.1, share: 1 }],
  }) as unknown as Statement
  const told = (dof: number) => drawn(StatementView, { statement: statement(dof), quantity: 'force', name: 'F', size: 'reading' })

  it('are very many beyond a thousand', async () => {
    expect(await told(1_183_802_804)).toContain('very many')
    expect(await told(Infinity)).toContain('very many')
    expect(await told(12.34)).toContain('12,3')
  })
})
