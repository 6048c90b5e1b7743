using Athwart.Quantities;

namespace Athwart.Scenes.Rendering;

/// <summary>Runs of samples.</summary>
internal static class Runs
{
    /// <summary>The runs whose magnitude reaches or goes beyond a limit.</summary>
    public static List<FrameRange> Beyond(ReadOnlySpan<double> samples, double limit)
    {
        List<FrameRange> runs = [];
        var from = -1;
        for (var i = 0; i <= samples.Length; i++)
        {
            var beyond = i < samples.Length && Math.Abs(samples[i]) >= limit;
            if (beyond && from < 0)
                from = i;
            if (beyond || from < 0)
                continue;
            runs.Add(FrameRange.FromFrames(from, i));
            from = -1;
        }

        return runs;
    }
}
