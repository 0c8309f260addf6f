/** What a printed sheet leaves free at the edges of the page, and where its header and footer stand [inches]. */
export const MARGINS = { top: 0.3, bottom: 0.4, left: 0.4, right: 0.4, header: 0.2, footer: 0.2 } as const;
