/** What stands in a number field before anything is typed: as many digits as the instrument shows, in any unit. */
import type { Preferences } from '@core/services'
import NumberField from '@renderer/parts/NumberField.vue'
import { words } from '@renderer/words'
import { getActivePinia } from 'pinia'
import { describe, expect, it } from 'vitest'
import { createSSRApp } from 'vue'
import { renderToString } from 'vue/server-renderer'
import { shownWith } from '../../harness/shown'

async function fieldOf(keptMm: number, chosen: Partial<Preferences>, stepMm?: number): Promise<string | undefined> {
  const preferences = shownWith(chosen)
  const fixed = stepMm === undefined ? undefined : preferences.readingDigits(stepMm, 'length')
  const app = createSSRApp(NumberField, { modelValue: keptMm, label: 'Height', quantity: 'length', fixed })
  app.use(getActivePinia()!).use(words)
  return /value="([^"]*)"/.exec(await renderToString(app))?.[1]
}

describe('a reading in its field', () => {
  it.each<[string, number, Partial<Preferences>, number | undefined, string]>([
    ['stands to the step', 5.5, {}, 0.05, '5.50'],
    ['stands to the step in German', 5.5, { decimalMark: 'comma' }, 0.05, '5,50'],
    ['lines up when it is converted', 5.5, { length: 'inch' }, 0.05, '0.2165'],
    ['lines up when it is small', 0.3, { length: 'inch' }, 0.05, '0.0118'],
    ['lines up when it is nothing', 0, { length: 'inch' }, 0.05, '0.0000'],
    ['keeps what was typed finer', 5.505, {}, 0.05, '5.505'],
    ['keeps what was typed finer in inches', 0.21654 * 25.4, { length: 'inch' }, 0.05, '0.21654'],
    ['has no empty end without a step', 5.5, {}, undefined, '5.5'],
  ])('%s', async (_what, kept, chosen, step, text) => {
    expect(await fieldOf(kept, chosen, step)).toBe(text)
  })
})
