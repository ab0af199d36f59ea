/** Step cues for hands that are busy: a beep or a spoken word, if the builder wants them. */
export function cue(kind: 'none' | 'beep' | 'speech', text: string): void {
  if (kind === 'speech' && 'speechSynthesis' in window) {
    speechSynthesis.cancel()
    speechSynthesis.speak(new SpeechSynthesisUtterance(text))
  }
  if (kind !== 'beep') return
  const context = new AudioContext()
  const tone = context.createOscillator()
  const volume = context.createGain()
  volume.gain.value = 0.08
  tone.frequency.value = 880
  tone.connect(volume).connect(context.destination)
  tone.start()
  tone.stop(context.currentTime + 0.12)
  tone.onended = () => void context.close()
}
