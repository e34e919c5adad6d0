import fs from 'node:fs'
import path from 'node:path'
import { setTimeout } from 'node:timers/promises'

const beatMs = 2_000
const silentMs = 20_000

/**
 * Runs `work` while no other process does, waiting for one that does. The holder's file carries its process id and is
 * touched every two seconds; a file whose process is gone, or that nobody touched for twenty, is taken over.
 */
export async function withPrepareLock(file, work) {
  fs.mkdirSync(path.dirname(file), { recursive: true })
  for (let waited = false; !take(file); waited = true) {
    if (!waited) console.log('Another start is preparing this folder; waiting for it …')
    await setTimeout(300)
  }
  const beat = setInterval(() => fs.utimesSync(file, new Date(), new Date()), beatMs)
  try {
    await work()
  } finally {
    clearInterval(beat)
    fs.rmSync(file, { force: true })
  }
}

/** The file appears with its content in one step (a link), so that nobody reads it half written. */
function take(file) {
  const mine = `${file}-${process.pid}`
  fs.writeFileSync(mine, String(process.pid))
  try {
    fs.linkSync(mine, file)
    return true
  } catch (error) {
    if (error.code !== 'EEXIST') throw error
    putAsideIfLeft(file, `${mine}-left`)
    return false
  } finally {
    fs.rmSync(mine)
  }
}

/** Moved first and looked at again after: had somebody taken over in between, it is his and goes back. */
function putAsideIfLeft(file, aside) {
  try {
    if (!isLeft(file)) return
    fs.renameSync(file, aside)
    if (!isLeft(aside)) fs.linkSync(aside, file)
    fs.rmSync(aside)
  } catch (error) {
    if (error.code !== 'ENOENT' && error.code !== 'EEXIST') throw error
  }
}

function isLeft(file) {
  if (Date.now() - fs.statSync(file).mtimeMs > silentMs) return true
  try {
    return !process.kill(Number(fs.readFileSync(file, 'utf8')), 0)
  } catch (error) {
    return error.code === 'ESRCH'
  }
}
