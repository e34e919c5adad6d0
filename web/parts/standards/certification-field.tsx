import type { Certification } from '#contract/standards/certifications.ts'
import { SelectField } from '../../ui/field.tsx'

interface CertificationFieldProps {
  certifications: readonly Pick<Certification, 'code' | 'title'>[]
  /** The code of the certification chosen; '': all of them. */
  value: string
  /** What the choice of all of them is called; without it one must be chosen. */
  all?: string
  onCertification: (code: string) => void
}

/** The choice of a certification, by title. */
export function CertificationField({ certifications, value, all, onCertification }: CertificationFieldProps) {
  return (
    <SelectField label="Certification" value={value} onChange={(event) => onCertification(event.target.value)}>
      {all && <option value="">{all}</option>}
      {certifications.map(({ code, title }) => (
        <option key={code} value={code}>
          {title}
        </option>
      ))}
    </SelectField>
  )
}
