using Athwart.Jobs.Render;

namespace Athwart.Cli.Output;

/// <summary>Shows the progress of a render on a <see cref="ProgressLine"/>.</summary>
internal sealed class RenderProgressLine(ProgressLine line, string step) : IProgress<RenderProgress>
{
    /// <inheritdoc/>
    public void Report(RenderProgress value) => line.Report(new(step, value.FramesDone, value.FramesTotal, "frames"));
}
