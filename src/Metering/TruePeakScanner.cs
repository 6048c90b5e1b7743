namespace Athwart.Metering;

/// <summary>Keeps the true peak of one channel and interpolates only where the peak so far could be beaten.</summary>
internal sealed class TruePeakScanner(int sampleRateHertz, bool interpolate = true)
{
    private readonly int _phases = interpolate ? TruePeakFilter.PhasesFor(sampleRateHertz) : 0;

    /// <summary>The largest magnitude so far, interpolated or a sample.</summary>
    public float Peak { get; private set; }

    /// <summary>Sub-blocks that had to be interpolated; for tests.</summary>
    public long Interpolated { get; private set; }

    /// <summary>Takes the next block.</summary>
    /// <param name="window">History, block and padding.</param>
    /// <param name="count">Frames in the block.</param>
    /// <param name="subPeaks">max |x| of each sub-block.</param>
    /// <param name="blockPeak">The largest of them.</param>
    public void Scan(ReadOnlySpan<float> window, int count, ReadOnlySpan<float> subPeaks, float blockPeak)
    {
        Peak = Math.Max(Peak, blockPeak);
        if (_phases == 0)
            return;
        var before = HistoryPeak(window);
        for (int b = 0, from = 0; from < count; b++, from += SampleWindow.SubBlock)
        {
            // An interpolated value rests on this sub-block and eleven samples of the one before, and on nothing else.
            if (Math.Max(before, subPeaks[b]) * TruePeakFilter.Bound > Peak)
                Interpolate(window, from, Math.Min(SampleWindow.SubBlock, count - from));
            before = subPeaks[b];
        }
    }

    private static float HistoryPeak(ReadOnlySpan<float> window)
    {
        var peak = 0f;
        foreach (var x in window[..SampleWindow.Lead])
            peak = Math.Max(peak, Math.Abs(x));
        return peak;
    }

    private void Interpolate(ReadOnlySpan<float> window, int from, int count)
    {
        Interpolated++;
        Peak = Math.Max(Peak, TruePeakFilter.Peak(window, SampleWindow.Lead + from, count, _phases));
    }
}
