import type { FunctionComponent } from 'preact';
import type { Place } from './place.ts';

/** What a part of the page is given: where in it somebody is. */
export interface SectionProps {
  readonly place: Place;
}
export type SectionView = FunctionComponent<SectionProps>;
