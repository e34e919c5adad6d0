import { Empty } from '../../ui/empty.tsx'
import { Section } from '../../ui/section.tsx'

/** Where the filters leave nothing to draw. */
export function NoneFound({ title, children }: { title: string; children: React.ReactNode }) {
  return (
    <Section title={title}>
      <Empty>
        <p>{children}</p>
      </Empty>
    </Section>
  )
}
