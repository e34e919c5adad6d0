import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { startProduct } from '../support/start-product.ts'

/** The product with its demo, on a folder and a port of its own; ending it removes the folder. */
export async function demoServer(): Promise<{ url: string; end(): Promise<void> }> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-shots-'))
  console.log('Loading the demo …')
  const product = await startProduct({ REVIEWSTAND_DATA: folder, PATH: process.env.PATH ?? '', HOME: os.homedir() })
  return {
    url: product.url,
    async end() {
      await product.end('SIGTERM')
      fs.rmSync(folder, { recursive: true, force: true })
    },
  }
}
