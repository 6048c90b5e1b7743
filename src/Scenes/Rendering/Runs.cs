using Athwart.Quantities;

namespace Athwart.Scenes.Rendering;

/// <summary>Runs of samples.</summary>
internal static class Runs
{
    /// <summary>The runs of samples of which something is true.</summary>
    public static List<FrameRange> Of(ReadOnlySpan<double> samples, Func<double, bool> isOne)
    {
        List<FrameRange> runs = [];
        var from = -1;
        for (var i = 0; i <= samples.Length; i++)
        {
            var beyond = i < samples.Length && isOne(samples[i]);
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
