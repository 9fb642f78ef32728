import { Component, type ComponentChildren } from 'preact';
import { Broken } from './broken.tsx';

interface Props {
  /** What is shown; another screen is tried anew. */
  readonly path: string;
  readonly children: ComponentChildren;
}

interface State {
  readonly broken?: { readonly path: string; readonly error: Error };
}

/** A screen that fails to draw says so in its own place; the places and what can be undone stay. */
export class Catch extends Component<Props, State> {
  override state: State = {};

  override componentDidCatch(error: Error): void {
    this.setState({ broken: { path: this.props.path, error } });
  }

  render() {
    const { broken } = this.state;
    return broken?.path === this.props.path ? <Broken error={broken.error} /> : this.props.children;
  }
}
