/** Pictures that must stand beside the statements; how they are drawn is for documents. */
export type Pictogram = 'refrigerator' | 'hands under a faucet' | 'skillet' | 'thermometer';

export interface SafeHandling {
  readonly heading: string;
  readonly rationale: string;
  readonly statements: readonly { readonly text: string; readonly pictogram: Pictogram }[];
  readonly citation: string;
}

/**
 * Safe handling instructions of raw and not ready-to-eat meat and poultry. The words were read in 9 CFR 381.125(b)(2), (3),
 * edition of 2015, and 9 CFR 317.2(l)(2), (3), in a complete copy of title 9 of 2018 or later: both have the same.
 */
export function safeHandling(isPoultry: boolean): SafeHandling {
  return {
    heading: 'Safe Handling Instructions',
    rationale:
      'This product was prepared from inspected and passed meat and/or poultry. Some food products may contain bacteria that could cause illness if the product is mishandled or cooked improperly. For your protection, follow these safe handling instructions.',
    statements: [
      { text: 'Keep refrigerated or frozen. Thaw in refrigerator or microwave.', pictogram: 'refrigerator' },
      {
        text: 'Keep raw meat and poultry separate from other foods. Wash working surfaces (including cutting boards), utensils, and hands after touching raw meat or poultry.',
        pictogram: 'hands under a faucet',
      },
      { text: 'Cook thoroughly.', pictogram: 'skillet' },
      {
        text: 'Keep hot foods hot. Refrigerate leftovers immediately or discard.',
        pictogram: 'thermometer',
      },
    ],
    citation: isPoultry ? '9 CFR 381.125(b)' : '9 CFR 317.2(l)',
  };
}
