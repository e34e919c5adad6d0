import { useEffect } from 'react'

/** Keeps the screen on while a test runs, where the browser can; again after the page was hidden. */
export const useWakeLock = (isOn: boolean): void => {
  useEffect(() => {
    if (!isOn || !navigator.wakeLock) return
    let lock: WakeLockSentinel | null = null
    let isGone = false
    const ask = async () => {
      if (document.visibilityState !== 'visible') return
      try {
        lock = await navigator.wakeLock.request('screen')
        if (isGone) await lock.release()
      } catch {
        // Low battery: the screen goes off as usual.
      }
    }
    void ask()
    document.addEventListener('visibilitychange', ask)
    return () => {
      isGone = true
      document.removeEventListener('visibilitychange', ask)
      void lock?.release()
    }
  }, [isOn])
}
