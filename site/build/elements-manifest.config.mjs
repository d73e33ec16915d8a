/** The analyzer lists files in whatever order the disk answers; the manifest holds them by path, so that every build writes the same bytes. */
export default {
  litelement: true,
  globs: ["src/elements/**/*.ts"],
  outdir: "dist",
  plugins: [
    {
      name: "modules-by-path",
      packageLinkPhase({ customElementsManifest }) {
        customElementsManifest.modules.sort((a, b) => (a.path < b.path ? -1 : 1));
      },
    },
  ],
};
