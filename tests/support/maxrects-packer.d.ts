// the package's main file is not a module for Node; its .mjs is, and has no types of its own
declare module 'maxrects-packer/dist/maxrects-packer.mjs' {
  export * from 'maxrects-packer';
}
