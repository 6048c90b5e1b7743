namespace Athwart.Metering;

/// <summary>Runs of exact zeros of a minimum length, found by looking at every 32nd sample first.</summary>
internal sealed class SilenceRuns(long shortestFrames, long joinWithinFrames)
{
    internal const int Stride = 32;
    private readonly RunLedger _ledger = new(joinWithinFrames);
    private long _from = -1;

    /// <summary>Takes the next block; the shortest run counted must be 32 frames or more for none to be missed.</summary>
    public void Scan(ReadOnlySpan<float> block, long firstFrame)
    {
        var i = 0;
        while (i < block.Length)
        {
            if (block[i] != 0)
            {
                Close(firstFrame + i);
                i = Math.Min(i + Stride, Math.Max(i + 1, block.Length - 1));
                continue;
            }

            if (_from < 0)
                _from = firstFrame + StartOfZeros(block, i);
            var rest = block[i..].IndexOfAnyExcept(0f);
            if (rest < 0)
                return;
            i += rest;
        }
    }

    /// <summary>The runs of a take that ends at a frame.</summary>
    public SampleRuns Complete(long endFrame)
    {
        Close(endFrame);
        return _ledger.ToRuns();
    }

    private static int StartOfZeros(ReadOnlySpan<float> block, int at)
    {
        while (at > 0 && block[at - 1] == 0)
            at--;
        return at;
    }

    private void Close(long frame)
    {
        if (_from >= 0 && frame - _from >= shortestFrames)
            _ledger.Add(_from, frame, 0);
        _from = -1;
    }
}
