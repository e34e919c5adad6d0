import { describe, expect, it } from 'vitest'
import { sayRunsAsRoot } from '../../../server/process/start/say-runs-as-root.ts'

describe('sayRunsAsRoot', () => {
  it('names the owner of the folder, or asks for a user', () => {
    expect(sayRunsAsRoot(0, '/srv/data', 1001).join()).toMatch(/runs as root.*id 1001.*"chown -R 1001 \/srv\/data"/)
    for (const owner of [0, null]) {
      expect(sayRunsAsRoot(0, '/srv/data', owner).join()).toMatch(/a user of its own.*"chown -R USER \/srv\/data"/)
    }
  })

  it('says nothing to anybody else, nor where the system knows no users', () => {
    expect(sayRunsAsRoot(1001, '/srv/data', 1001)).toEqual([])
    expect(sayRunsAsRoot(undefined, 'C:\\data', 0)).toEqual([])
  })
})
