export type ServerCertificate = {
  readonly key: Buffer | string;
  readonly cert: Buffer | string;
} & ({ readonly isTrusted: true } | { readonly isTrusted: false; readonly why: string });

/** What is used of the package that makes and installs certificates. */
export interface CertificateTool {
  ensureCertificatesAreInstalled(): Promise<void>;
  verifyCertificates(): boolean;
  getHttpsServerOptions(): Promise<{
    readonly key: Buffer | string;
    readonly cert: Buffer | string;
  }>;
}

export declare function serverCertificate(options?: {
  readonly install?: boolean;
  readonly tool?: CertificateTool;
}): Promise<ServerCertificate>;
