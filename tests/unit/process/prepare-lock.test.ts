import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
// @ts-expect-error Plain JavaScript: it runs before anything is installed.
import { withPrepareLock } from '../../../server/process/prepare-lock.mjs'

describe('withPrepareLock', () => {
  let folder: string
  let file: string
  beforeEach(() => {
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-lock-'))
    file = path.join(folder, 'dist/lock')
    vi.spyOn(console, 'log').mockImplementation(() => {})
  })
  afterEach(() => {
    vi.restoreAllMocks()
    fs.rmSync(folder, { recursive: true })
  })

  it('lets one work at a time and says once that it waits', async () => {
    const events: string[] = []
    const work = (name: string) => async () => {
      events.push(`${name} begins`)
      await setTimeout(20)
      events.push(`${name} ends`)
    }
    // Both are this process, which is alive, so the second has to wait.
    await Promise.all([withPrepareLock(file, work('one')), withPrepareLock(file, work('two'))])
    expect(events).toEqual(['one begins', 'one ends', 'two begins', 'two ends'])
    expect(console.log).toHaveBeenCalledTimes(1)
    expect(fs.readdirSync(path.dirname(file))).toEqual([])
  })

  it('is free again after work that failed', async () => {
    await expect(withPrepareLock(file, () => Promise.reject(new Error('npm failed')))).rejects.toThrow('npm failed')
    expect(fs.existsSync(file)).toBe(false)
  })

  it('takes over from a process that is gone', async () => {
    fs.mkdirSync(path.dirname(file))
    fs.writeFileSync(file, '4194305') // More than the largest process id of Linux.
    let done = false
    await withPrepareLock(file, async () => {
      done = true
    })
    expect(done).toBe(true)
  })

  it('takes over a file that nobody touches any more, though its process id is in use', async () => {
    fs.mkdirSync(path.dirname(file))
    fs.writeFileSync(file, String(process.pid))
    const longAgo = new Date(Date.now() - 60_000)
    fs.utimesSync(file, longAgo, longAgo)
    let done = false
    await withPrepareLock(file, async () => {
      done = true
    })
    expect(done).toBe(true)
  })
})
