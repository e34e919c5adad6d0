import { useCallback, useEffect, useState, useSyncExternalStore } from 'react'
import { keepSheet, readSheet } from '../store/sheet-store.ts'
import { createSheetKeeper, type Keeper, type Keeping, type SheetKeeper } from './sheet-keeper.ts'

export type Writing =
  | { readonly kind: 'opening' | 'missing' | 'elsewhere' }
  | { readonly kind: 'writing'; readonly keeper: SheetKeeper }

/**
 * Opens a sheet of this device for writing. One window writes at a time: the others are told so (`elsewhere`) and get it
 * by `takeOver`, or when that one closes.
 */
export const useSheetWriter = (accountId: string, id: string): { writing: Writing; takeOver: () => void } => {
  const [writing, setWriting] = useState<Writing>({ kind: 'opening' })
  const [takes, setTakes] = useState(0)
  useEffect(() => {
    let isGone = false
    let release: () => void = () => undefined
    const held = new Promise<void>((resolve) => {
      release = resolve
    })
    const open = async () => {
      const sheet = await readSheet(accountId, id)
      if (isGone) return
      if (!sheet) return setWriting({ kind: 'missing' })
      setWriting({ kind: 'writing', keeper: createSheetKeeper(sheet, keepSheet) })
    }
    const write = async () => {
      if (isGone) return
      await open()
      await held
    }
    const name = `reviewstand.sheet.${id}`
    /** Another window has it; once that one closes it, this one goes on. */
    const wait = () => {
      if (isGone) return
      setWriting({ kind: 'elsewhere' })
      navigator.locks.request(name, write).catch(wait)
    }
    if (!navigator.locks) void write()
    else if (takes > 0) navigator.locks.request(name, { steal: true }, write).catch(wait)
    else navigator.locks.request(name, { ifAvailable: true }, (lock) => (lock ? write() : wait())).catch(wait)
    return () => {
      isGone = true
      release()
    }
  }, [accountId, id, takes])
  return { writing, takeOver: useCallback(() => setTakes((before) => before + 1), []) }
}

/** What to show of what is being written. */
export const useKeeping = <Kept extends { readonly revision: number }>(keeper: Keeper<Kept>): Keeping<Kept> =>
  useSyncExternalStore(keeper.subscribe, keeper.shown)
