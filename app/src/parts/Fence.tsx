/** The screen's one fence: a bug costs the drawing of one screen, never the document. */
import { Component, type ReactNode } from "react";

export class Fence extends Component<
  { readonly children: ReactNode },
  { readonly fault: string | undefined }
> {
  override state = { fault: undefined };

  static getDerivedStateFromError(error: unknown): { fault: string } {
    return { fault: error instanceof Error ? error.message : String(error) };
  }

  override render(): ReactNode {
    if (this.state.fault === undefined) return this.props.children;
    return (
      <main style={{ padding: "2rem", maxWidth: "40rem" }} role="alert">
        <h1>This screen could not be drawn</h1>
        <p>What you have said is kept as it was. The reason, for whoever mends it: {this.state.fault}</p>
        <button type="button" className="main" onClick={() => this.setState({ fault: undefined })}>
          Draw it again
        </button>
      </main>
    );
  }
}
