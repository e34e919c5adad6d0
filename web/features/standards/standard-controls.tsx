import { Link } from 'wouter'
import type { Standard } from '#contract/standards/standards.ts'
import { addressTo, paths } from '../../paths.ts'
import { SelectField } from '../../ui/field.tsx'
import { NewVersionButton } from './new-version-button.tsx'

interface StandardControlsProps {
  standard: Standard
  versions: readonly Standard[]
  today: string
  mayManage: boolean
  onVersion: (version: string) => void
}

/** Another version, what is made of this one, and the ways to change it. */
export function StandardControls({ standard, versions, today, mayManage, onVersion }: StandardControlsProps) {
  return (
    <>
      {versions.length > 1 && (
        <SelectField
          label="Version"
          value={String(standard.version)}
          onChange={(event) => onVersion(event.target.value)}
        >
          {versions.map(({ version }) => (
            <option key={version} value={String(version)}>
              Version {version}
            </option>
          ))}
        </SelectField>
      )}
      {standard.publishedAt && <Link href={addressTo(paths.study, { id: standard.code })}>Study sheet</Link>}
      <Link href={addressTo(paths.paper, { id: standard.code })}>Paper sheets and call list</Link>
      {mayManage && <NewVersionButton from={standard} versions={versions} today={today} />}
      {mayManage && !standard.publishedAt && (
        <Link href={addressTo(paths.draft, { id: standard.id })} className="button button-main">
          Edit this draft
        </Link>
      )}
    </>
  )
}
