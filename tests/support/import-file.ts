import { setTimeout } from 'node:timers/promises'
import request from 'supertest'
import type { Import, ImportPlan, ImportRow } from '../../server/contract/imports/imports.ts'
import type { TestApp } from './build-test-app.ts'
import { PASSWORD } from './build-test-app.ts'

export interface Importer {
  /** Sends a file; expects it to be taken. */
  send(content: string | Buffer, name?: string): Promise<Import>
  /** Sends a file that is refused. Out: status, rule and detail. */
  refused(content: string | Buffer): Promise<string>
  /** Checks a file as suggested, unless told otherwise, and waits. Without `answers`, new grades and arms are added. */
  check(sent: Import, plan?: Partial<ImportPlan>): Promise<Import>
  /** Stores a checked file and waits. */
  store(sent: Import, leaveOut?: boolean): Promise<Import>
  rows(sent: Import): Promise<ImportRow[]>
  /** The file of refused rows. */
  refusedFile(sent: Import): Promise<Buffer>
  /** A file that is handed out, byte by byte. */
  file(address: string): Promise<Buffer>
  /** Sends, checks and stores. */
  all(content: string | Buffer, plan?: Partial<ImportPlan>): Promise<Import>
}

/** Takes files in through the API as the training office does, or as another account with its client. */
export async function makeImporter(test: TestApp, name = 'office', client = test.office): Promise<Importer> {
  const agent = request.agent(test.app.server)
  await agent.post('/api/session').send({ name, password: PASSWORD }).expect(200)
  const post = (content: string | Buffer, name: string) =>
    agent
      .post('/api/imports')
      .ok(() => true)
      .set('content-type', 'application/octet-stream')
      .set('x-file-name', encodeURIComponent(name))
      .send(Buffer.from(content))
  async function settled(id: string): Promise<Import> {
    for (;;) {
      const job = await client.get<Import>(`/api/imports/${id}`)
      if (job.state !== 'checking' && job.state !== 'storing') return job
      await setTimeout(20)
    }
  }
  const importer: Importer = {
    async send(content, name = 'table.csv') {
      const { status, body } = await post(content, name)
      if (status !== 201) throw new Error(`${status} ${JSON.stringify(body)}`)
      return body as Import
    },
    async refused(content) {
      const { status, body } = await post(content, 'table')
      return `${status} ${body.type} ${body.detail}`
    },
    async check(sent, plan = {}) {
      const check = async (more: Partial<ImportPlan>) => {
        await client.post(`/api/imports/${sent.id}/check`, { kind: sent.kind, ...plan, ...more }, 202)
        return settled(sent.id)
      }
      const checked = await check({})
      const added = checked.questions.filter(({ about, answer }) => about !== 'name' && answer === null)
      if (plan.answers || added.length === 0) return checked
      return check({ answers: Object.fromEntries(added.map(({ key }) => [key, 'add'])) })
    },
    async store(sent, leaveOut = false) {
      await client.post(`/api/imports/${sent.id}/store`, { leaveOut }, 202)
      return settled(sent.id)
    },
    rows: async (sent) => (await client.get<{ items: ImportRow[] }>(`/api/imports/${sent.id}/rows?limit=500`)).items,
    refusedFile: (sent) => importer.file(`/api/imports/${sent.id}/refused`),
    async file(address) {
      const { body } = await agent
        .get(address)
        .buffer(true)
        .parse((answer, done) => {
          const pieces: Buffer[] = []
          answer.on('data', (piece: Buffer) => pieces.push(piece))
          answer.on('end', () => done(null, Buffer.concat(pieces)))
        })
        .expect(200)
      return body as Buffer
    },
    async all(content, plan) {
      const checked = await importer.check(await importer.send(content), plan)
      if (checked.state !== 'checked') throw new Error(`${checked.state}: ${checked.problem}`)
      return importer.store(checked, true)
    },
  }
  return importer
}
