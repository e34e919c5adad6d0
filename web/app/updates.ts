import { compareVersions } from './newer-version.ts'
import { keepTyped } from './typed-fields.ts'

/** A newer version of the app waits on this device; it takes over when somebody says so, never by itself in the middle of something. */
let waiting: ServiceWorker | null = null
/** The server hands out a newer one, which nothing on this device keeps: a part of this one was not there any more. */
let isReplaced = false
/** The newer one was asked for, and the browser is still busy with the former. */
let isLoading = false
const listeners = new Set<() => void>()

const tell = () => {
  for (const listener of listeners) listener()
}

const found = (worker: ServiceWorker) => {
  waiting = worker
  tell()
}

/** Where a part of the app does not come, keeps what is typed while it is still there, and sees whether it was replaced. */
export const watchForReplacement = (): void => {
  window.addEventListener('vite:preloadError', () => {
    keepTyped()
    compareVersions().then(({ kind }) => {
      if (kind !== 'newer') return
      isReplaced = true
      tell()
    })
  })
}

/** Is a grade sheet being written in some window of this device? */
const isGrading = async (): Promise<boolean> => {
  const { held = [] } = (await navigator.locks?.query()) ?? {}
  return held.some(({ name }) => name?.startsWith('reviewstand.sheet.'))
}

const AFTER_FIRST_PAGE_MS = 2_000

/** On a first visit the page goes first; then the worker brings down the whole app. */
const firstPageIsThere = async (): Promise<void> => {
  if (navigator.serviceWorker.controller) return
  if (document.readyState !== 'complete') {
    await new Promise((resolve) => window.addEventListener('load', resolve, { once: true }))
  }
  await new Promise((resolve) => setTimeout(resolve, AFTER_FIRST_PAGE_MS))
}

/**
 * Makes the app open without a network, where the browser allows it. A newer version that was waiting already is taken at
 * once, since nothing has begun yet; one that comes later waits to be asked for.
 */
export const startOfflineApp = async (): Promise<void> => {
  if (!('serviceWorker' in navigator) || !import.meta.env.PROD) return
  try {
    await firstPageIsThere()
    const registration = await navigator.serviceWorker.register('/sw.js')
    if (registration.waiting && navigator.serviceWorker.controller) {
      found(registration.waiting)
      if (!location.pathname.startsWith('/grade/')) await takeUpdate()
    }
    registration.addEventListener('updatefound', () => {
      const worker = registration.installing
      worker?.addEventListener('statechange', () => {
        if (worker.state === 'installed' && navigator.serviceWorker.controller) found(worker)
      })
    })
  } catch {
    // No offline mode; the desk says so.
  }
}

/**
 * Loads the version that waits. False, and nothing happens, while a sheet is being graded in any window. A browser may keep the
 * former worker for minutes: then a sheet begun meanwhile is left alone, and the newer version offered again after it.
 */
export const takeUpdate = async (): Promise<boolean> => {
  if (!isUpdateWaiting() || (await isGrading())) return false
  if (!waiting) {
    reload()
    return true
  }
  navigator.serviceWorker.addEventListener('controllerchange', reloadUnlessGrading, { once: true })
  waiting.postMessage({ type: 'SKIP_WAITING' })
  isLoading = true
  tell()
  return true
}

const reload = () => {
  keepTyped()
  location.reload()
}

const reloadUnlessGrading = async () => {
  if (!(await isGrading())) return reload()
  waiting = null
  isLoading = false
  isReplaced = true
  tell()
}

const isUpdateWaiting = (): boolean => waiting !== null || isReplaced

/** Whether a newer version waits to be asked for, or was asked for and is on its way. */
export const updateState = (): 'none' | 'waiting' | 'loading' =>
  isLoading ? 'loading' : isUpdateWaiting() ? 'waiting' : 'none'

export const onUpdate = (listener: () => void): (() => void) => {
  listeners.add(listener)
  return () => {
    listeners.delete(listener)
  }
}
