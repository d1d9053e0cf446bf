/** The program's argument that makes it a thread that builds slip tables. */
export const slipThreadWord = 'slip-thread';
