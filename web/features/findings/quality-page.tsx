export default function QualityPage() {
  return null
}
