export { clockText, offsetText, secondsText } from '../schedule/localTime.ts';
