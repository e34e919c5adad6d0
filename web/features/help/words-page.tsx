import { useState } from 'react'
import { Empty } from '../../ui/empty.tsx'
import { TextField } from '../../ui/field.tsx'
import { Page } from '../../ui/page.tsx'
import { counted } from '../../words/format-number.ts'
import { GLOSSARY } from './glossary.ts'
import './help.css'

/** What the words of the trade, and of these pages, mean here. */
export default function WordsPage() {
  const [text, setText] = useState('')
  const asked = text.trim().toLowerCase()
  const found = GLOSSARY.filter(({ word, meaning }) => `${word} ${meaning}`.toLowerCase().includes(asked))
  return (
    <Page
      title="Words"
      answer="What the words on these pages mean."
      why={`${counted(GLOSSARY.length, 'word')} of the trade and of Reviewstand, as they are used here. Your unit’s own procedure comes before them.`}
      controls={<TextField label="Find" type="search" value={text} onChange={(event) => setText(event.target.value)} />}
    >
      {found.length === 0 && (
        <Empty>
          <p>No word has that in it. Try fewer letters.</p>
        </Empty>
      )}
      <dl className="glossary">
        {found.map(({ word, meaning }) => (
          <div key={word}>
            <dt>{word}</dt>
            <dd>{meaning}</dd>
          </div>
        ))}
      </dl>
    </Page>
  )
}
