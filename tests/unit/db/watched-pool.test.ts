import net from 'node:net'
import { afterEach, expect, it } from 'vitest'
import { WatchedPool } from '../../../server/db/watched-pool.ts'

/** A message of PostgreSQL's protocol: its kind, its length with itself, what it says (PostgreSQL 17, 53.7 Message Formats). */
function message(kind: string, content: Buffer): Buffer {
  const length = Buffer.alloc(4)
  length.writeInt32BE(4 + content.length)
  return Buffer.concat([Buffer.from(kind), length, content])
}

const AUTHENTICATED = message('R', Buffer.alloc(4))
const READY = message('Z', Buffer.from('I'))
const GOODBYE = message('E', Buffer.from('SFATAL\0C57P01\0Mterminating connection due to administrator command\0\0'))

let server: net.Server
afterEach(() => server.close())

it('outlives a PostgreSQL that ends a connection in the moment it is handed out', async () => {
  server = net.createServer((socket) => {
    socket.once('data', () => socket.end(Buffer.concat([AUTHENTICATED, READY, GOODBYE])))
    socket.on('error', () => {})
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as net.AddressInfo
  const pool = new WatchedPool({ connectionString: `postgresql://anybody@127.0.0.1:${port}/any` })
  const client = await pool.connect()
  await expect(client.query('SELECT 1')).rejects.toThrow()
  client.release(true)
  await pool.end()
})
