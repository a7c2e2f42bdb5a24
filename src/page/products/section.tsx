import type { SectionProps } from '../shell/sections.ts';

export default function Section({ place }: SectionProps) {
  return <h1>{place.section}</h1>;
}
