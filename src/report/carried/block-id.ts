/** The data block's id: apart, for the page looks for it too. */
export const BLOCK_ID = 'jambeam-scenario';
