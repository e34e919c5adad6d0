import { expect, it } from 'vitest'
import { databaseProbe } from '../../../server/db/database-probe.ts'
import { databaseServer } from '../../../server/db/server-client.ts'
import { freePort } from '../../../server/process/postgres/free-port.ts'

it('outlives that no host of several is there, having connected to none', async () => {
  const hosts = `127.0.0.1:${await freePort()},127.0.0.1:${await freePort()}`
  const probe = databaseProbe(databaseServer(`postgresql://anybody@${hosts}/any?target_session_attrs=read-write`))
  expect(await probe.ask()).toBe('gone')
})
