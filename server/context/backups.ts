/** A complete backup in the folder. */
export interface BackupFile {
  readonly name: string
  readonly takenAt: Date
  readonly bytes: number
}

/** How it stands with the backups. */
export interface BackupState {
  /** Null: none is made by itself. */
  readonly schedule: {
    readonly at: string
    readonly timeZone: string
    readonly next: Date | null
    /** The last two moments one was due, the latest first. */
    readonly lastDue: readonly Date[]
  } | null
  readonly folder: string
  readonly keep: number
  readonly lastFailure: { readonly at: Date; readonly problem: string } | null
  /** What is being written; rows are known only to the server process that writes. */
  readonly running: { readonly since: Date; readonly done: number | null; readonly all: number | null } | null
}

/** The backups of this server: files in a folder, made by schedule or when asked. */
export interface Backups {
  state(): Promise<BackupState>
  /** The latest first. */
  list(): Promise<BackupFile[]>
  /** Begins one and does not wait for its end. Out: false, where one is being written already. */
  begin(): Promise<boolean>
  /** The bytes of one; null where there is none of this name. */
  open(name: string): Promise<{ readonly bytes: number; readonly content: NodeJS.ReadableStream } | null>
  /** Ends what is under way; no part of it is left. */
  close(): Promise<void>
}
