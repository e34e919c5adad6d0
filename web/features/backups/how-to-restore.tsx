import { Section } from '../../ui/section.tsx'

/** What a backup is good for, and how to come back from it, in words. */
export function HowToRestore({ folder }: { folder: string }) {
  return (
    <Section title="Keeping and restoring">
      <div className="backup-words">
        <p>
          They lie in <code>{folder}</code> on the server. A disk that fails takes them along: copy them to another
          machine now and then. Each holds names, grades and password hashes, so keep it as safe as the server itself;
          who downloads one is on record.
        </p>
        <ol>
          <li>Stop the server.</li>
          <li>
            Set <code>REVIEWSTAND_DATA</code> to a new folder, or <code>DATABASE_URL</code> to an empty database. What
            is there now stays as it is.
          </li>
          <li>
            Run <code>npm run restore -- FILE</code>. The file is checked first, and restored whole or not at all.
          </li>
          <li>
            Start the server with <code>REVIEWSTAND_DEMO=off</code>. Everybody signs in with the password they had then.
          </li>
        </ol>
        <p>Try it once before you need it.</p>
      </div>
    </Section>
  )
}
