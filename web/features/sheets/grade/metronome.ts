const MINUTE_S = 60
/** A click as loud as a watch close by: for the grader, not for the candidate. */
const VOLUME = 0.04
const CLICK_S = 0.03
const LOOK_AHEAD_S = 0.2
const EVERY_MS = 100

/**
 * A quiet beat. In: beats a minute, and what shows it by the attribute `data-beat`. Out: ends it. Clicks are set on the clock
 * of the sound card, so that a busy page does not make them late.
 */
export const startBeat = (rate: number, shown: HTMLElement | null): (() => void) => {
  const sound = new AudioContext()
  let next = sound.currentTime + 0.1
  const click = (at: number) => {
    const tone = sound.createOscillator()
    const loudness = sound.createGain()
    tone.frequency.value = 900
    loudness.gain.setValueAtTime(VOLUME, at)
    loudness.gain.exponentialRampToValueAtTime(0.0001, at + CLICK_S)
    tone.connect(loudness).connect(sound.destination)
    tone.start(at)
    tone.stop(at + CLICK_S)
  }
  const timer = setInterval(() => {
    while (next < sound.currentTime + LOOK_AHEAD_S) {
      click(next)
      shown?.toggleAttribute('data-beat')
      next += MINUTE_S / rate
    }
  }, EVERY_MS)
  return () => {
    clearInterval(timer)
    void sound.close()
  }
}
