namespace Athwart.Metering;

/// <summary>Runs of samples whose magnitude reaches a threshold: full scale of an integer take, or ±1 of a floating-point one.</summary>
/// <param name="threshold">Magnitude, full scale 1; +∞ switches it off.</param>
/// <param name="shortest">Runs below this many samples are not counted.</param>
/// <param name="strictly">Whether the magnitude must exceed the threshold.</param>
/// <param name="joinWithinFrames">Runs so close belong to one stretch.</param>
internal sealed class LevelRuns(double threshold, int shortest, bool strictly, long joinWithinFrames)
{
    private readonly RunLedger _ledger = new(joinWithinFrames);
    private readonly float _threshold = strictly ? MathF.BitIncrement((float)threshold) : (float)threshold;
    private long _from = -1;
    private float _peak;

    /// <summary>Takes the next block, which begins at a frame of the take.</summary>
    /// <param name="block">Samples.</param>
    /// <param name="firstFrame">Frame of the first.</param>
    /// <param name="blockPeak">max |x| of the block: nearly all blocks can be passed over.</param>
    public void Scan(ReadOnlySpan<float> block, long firstFrame, float blockPeak)
    {
        if (blockPeak < _threshold)
        {
            Close(firstFrame);
            return;
        }

        for (var i = 0; i < block.Length; i++)
            Next(block[i], firstFrame + i);
    }

    /// <summary>The runs of a take that ends at a frame.</summary>
    public SampleRuns Complete(long endFrame)
    {
        Close(endFrame);
        return _ledger.ToRuns();
    }

    private void Next(float sample, long frame)
    {
        var magnitude = MathF.Abs(sample);
        var reaches = magnitude >= _threshold;
        if (!reaches)
        {
            Close(frame);
            return;
        }

        // A swing from one rail to the other is one run: sound that high is cut at every swing.
        if (_from < 0)
            (_from, _peak) = (frame, 0);
        _peak = MathF.Max(_peak, magnitude);
    }

    private void Close(long frame)
    {
        if (_from >= 0 && frame - _from >= shortest)
            _ledger.Add(_from, frame, _peak);
        _from = -1;
    }
}
