import { expect, it } from 'vitest'
import { dropConnection } from '../../../server/db/drop-connection.ts'
import { ServerClient } from '../../../server/db/server-client.ts'

it('does not connect any more once it was dropped, while it still looked for a host', async () => {
  const address = 'postgresql://anybody@127.0.0.1:1/any'
  const client = new ServerClient({ address, find: async () => ({ host: '127.0.0.1', port: 1 }) }, {})
  const connecting = client.connect()
  dropConnection(client, new Error('cut'))
  await expect(connecting).rejects.toThrow('cut')
})
