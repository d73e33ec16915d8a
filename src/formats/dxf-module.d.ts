/** The DXF writer's module: its package names only what has to be searched for its exports before it loads. */
declare module "@tarikjabiri/dxf/lib/index.mjs" {
  export * from "@tarikjabiri/dxf";
}
