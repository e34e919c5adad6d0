import fs from 'node:fs'

const ROOT = 0

/**
 * What whoever starts the server as root should know: it stays root, so that it can stop and start PostgreSQL, which runs
 * as another user. Empty where it runs as anybody else.
 * In: the user it runs as (undefined: the system has none), the data folder, and the user that owns it (null: not there).
 */
export function sayRunsAsRoot(uid: number | undefined, folder: string, owner: number | null): string[] {
  if (uid !== ROOT) return []
  const user = owner === null || owner === ROOT ? 'a user of its own' : `the user with id ${owner}, who owns its folder`
  const name = owner === null || owner === ROOT ? 'USER' : owner
  return [
    'Attention: Reviewstand runs as root, so whoever finds a hole in it has the whole machine.',
    `Better run it as ${user}: stop it, then "chown -R ${name} ${folder}", and start it as that user.`,
  ]
}

/** The user that owns a folder; null: it is not there. */
export const ownerOf = (folder: string): number | null => fs.statSync(folder, { throwIfNoEntry: false })?.uid ?? null
