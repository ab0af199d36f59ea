/** The answer on the last results, at the speed that the car keeps, and the voice that tells it. */
import { answerOf } from '@core/answer'
import { answerLines, LANGUAGES, voiceOf } from '@core/report'
import { defineStore } from 'pinia'
import { computed, ref } from 'vue'
import { useAnalysis } from './analysis'
import { usePreferences } from './preferences'
import { useProject } from './project'

export const useAnswer = defineStore('answer', () => {
  const project = useProject()
  const analysis = useAnalysis()
  const preferences = usePreferences()

  /** A speed that is still being typed: answered, but not kept. */
  const triedMs = ref<number | null>(null)
  const answer = computed(() => {
    const { chassis } = project
    if (!chassis || !analysis.result) return null
    const asked = triedMs.value === null ? chassis : { ...chassis, askedSpeedMs: triedMs.value }
    return answerOf(analysis.result, asked, { units: preferences.chosen })
  })
  const voice = computed(() => {
    const { exchange } = project
    const { chosen } = preferences
    return exchange && voiceOf({ exchange, units: chosen, language: LANGUAGES[chosen.language] })
  })
  const lines = computed(() => (answer.value && voice.value ? answerLines(answer.value, voice.value) : null))

  return { answer, voice, lines, triedMs }
})
