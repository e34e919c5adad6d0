import './fact-lines.css'

/** Named facts, one a line; those without anything to say are left out. */
export function FactLines({ facts }: { facts: readonly (readonly [name: string, text: React.ReactNode])[] }) {
  return (
    <dl className="fact-lines">
      {facts
        .filter(([, text]) => text !== '' && text !== null)
        .map(([name, text]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{text}</dd>
          </div>
        ))}
    </dl>
  )
}
