import { registerControls } from '../shared/controls';

registerControls();
