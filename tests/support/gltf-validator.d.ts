/** The part of gltf-validator that the tests use; the package brings no types. */
declare module "gltf-validator" {
  export interface Report {
    readonly issues: {
      readonly messages: readonly {
        readonly code: string;
        readonly message: string;
        readonly pointer?: string;
        readonly severity: number;
      }[];
    };
    readonly info: { readonly totalTriangleCount: number };
  }
  const validator: { validateBytes(bytes: Uint8Array, options?: { maxIssues?: number }): Promise<Report> };
  export default validator;
}
