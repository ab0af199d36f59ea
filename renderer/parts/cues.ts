const BEEPS = { step: { hertz: 880, lastS: 0.12 }, alarm: { hertz: 330, lastS: 0.5 } } as const

/** Cues for busy hands: a beep or a spoken word, if the builder wants them. An alarm's beep is low and long. */
export function cue(kind: 'none' | 'beep' | 'speech', text: string, what: keyof typeof BEEPS = 'step'): void {
  if (kind === 'speech' && 'speechSynthesis' in window) {
    speechSynthesis.cancel()
    const words = new SpeechSynthesisUtterance(text)
    words.lang = document.documentElement.lang
    speechSynthesis.speak(words)
  }
  if (kind !== 'beep') return
  const context = new AudioContext()
  const tone = context.createOscillator()
  const volume = context.createGain()
  volume.gain.value = 0.08
  tone.frequency.value = BEEPS[what].hertz
  tone.connect(volume).connect(context.destination)
  tone.start()
  tone.stop(context.currentTime + BEEPS[what].lastS)
  tone.onended = () => void context.close()
}
