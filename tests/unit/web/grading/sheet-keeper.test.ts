import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { createSheetKeeper } from '../../../../web/device/sheet/sheet-keeper.ts'
import type { KeptSheet } from '../../../../web/device/store/kept-sheet.ts'
import { WrittenElsewhereError } from '../../../../web/device/store/sheet-store.ts'
import { begun } from './arbitrary-events.ts'

const kept: KeptSheet = {
  accountId: 'a',
  id: 's',
  state: 'running',
  sheet: begun,
  revision: 1,
  closedAt: null,
  body: null,
  message: '',
  refusedWith: null,
  tries: 0,
  answer: null,
}

const noted = (notes: string) => (sheet: KeptSheet) => ({ ...sheet, sheet: { ...sheet.sheet, notes } })
const quota = () => new DOMException('full', 'QuotaExceededError')

beforeEach(() => {
  vi.useFakeTimers()
})
afterEach(() => {
  vi.useRealTimers()
})

describe('a sheet that is being written', () => {
  it('shows a change only once the device has kept it', async () => {
    let done: () => void = () => undefined
    const keeper = createSheetKeeper(kept, () => new Promise((resolve) => (done = resolve)))
    const change = keeper.change(noted('first'))
    expect(keeper.shown().sheet.sheet.notes).toBe('')
    expect(keeper.taken().sheet.notes).toBe('first')
    done()
    await change
    expect(keeper.shown()).toMatchObject({ problem: '', sheet: { revision: 2, sheet: { notes: 'first' } } })
  })

  it('keeps in order what is changed while it writes, and nothing that changes nothing', async () => {
    const written: string[] = []
    const keeper = createSheetKeeper(
      kept,
      async ({ revision, sheet }) => void written.push(`${revision} ${sheet.notes}`),
    )
    await Promise.all([keeper.change(noted('a')), keeper.change(noted('b')), keeper.change((sheet) => sheet)])
    expect(written.at(-1)).toBe('3 b')
    expect(keeper.isKept()).toBe(true)
  })

  it('goes on in memory when the device is full, says so, and keeps all as soon as there is space', async () => {
    let isFull = true
    const written: string[] = []
    const keeper = createSheetKeeper(kept, async ({ sheet }) => {
      if (isFull) throw quota()
      written.push(sheet.notes)
    })
    await keeper.change(noted('a'))
    await keeper.change(noted('ab'))
    expect(keeper.shown()).toMatchObject({ sheet: { sheet: { notes: 'ab' } }, isElsewhere: false })
    expect(keeper.shown().problem).toMatch(/no space left.*leave the page open/)
    isFull = false
    await vi.advanceTimersByTimeAsync(2_000)
    expect(written).toEqual(['ab'])
    expect(keeper.shown().problem).toBe('')
  })

  it('stops where another window has written', async () => {
    const keeper = createSheetKeeper(kept, async () => {
      throw new WrittenElsewhereError()
    })
    await keeper.change(noted('a'))
    expect(keeper.shown().isElsewhere).toBe(true)
    await keeper.change(noted('b'))
    expect(keeper.shown().sheet.sheet.notes).toBe('a')
  })

  it('shows a change that takes long, and says that it is not kept yet', async () => {
    const keeper = createSheetKeeper(kept, () => new Promise(() => undefined))
    void keeper.change(noted('slow'))
    await vi.advanceTimersByTimeAsync(400)
    expect(keeper.shown()).toMatchObject({ sheet: { sheet: { notes: 'slow' } }, isSlow: true, problem: '' })
    expect(keeper.isKept()).toBe(false)
  })
})
