/** Style sheets are bundled beside the script that names them. */
declare module '*.css';
