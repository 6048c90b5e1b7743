namespace Athwart.Metering;

/// <summary>Samples that lie at the highest level a channel reaches, in either polarity: what clips from rail to rail has no run of equal samples.</summary>
/// <remarks>
/// Within 1e-4 of its highest level sound has hardly a sample; a sine has a tenth of those it has within 1 %, as √(2·1e-4)/√(2·1e-2). Where
/// most of those within 1 % lie within 1e-4, something stopped there. Common practice, no published source.
/// </remarks>
internal sealed class CeilingSamples(SampleScale scale, long joinWithinFrames)
{
    private const int Fewest = 24, ShortestStop = 3;
    private const float Fine = 1e-4f, Coarse = 1e-2f;
    private readonly float _step = 1.01f * (float)scale.Step;
    private RunLedger _runs = new(joinWithinFrames);
    private long _at, _near, _runsAt, _from = -1;
    private float _level, _last;
    private double _before, _squares;

    /// <summary>Takes the next block, whose largest magnitude is known: nearly all blocks can be passed over.</summary>
    public void Scan(ReadOnlySpan<float> block, long firstFrame, float blockPeak)
    {
        if (blockPeak < FlatTopRuns.QuietestLevel || blockPeak < _level * (1 - Coarse))
        {
            Close(firstFrame);
            return;
        }

        if (blockPeak > _level + Tolerance)
            Raise(blockPeak);
        for (var i = 0; i < block.Length; i++)
        {
            Next(block[i], firstFrame + i);
            _last = block[i];
        }
    }

    /// <summary>The runs at the ceiling, and the share of the samples within 1 % that lie there; none when there is no ceiling.</summary>
    public (SampleRuns Runs, double Share) Complete(long endFrame)
    {
        Close(endFrame);
        var share = _near > 0 ? _at / (double)_near : 0;
        var runs = _runs.ToRuns();
        // A triangle or a pulse comes to its top for a sample or two; what is cut stays there.
        var stops = _at >= Fewest && share >= 0.8 && runs.LongestFrames >= ShortestStop && Wanders;
        return stops && _level < scale.FullScaleMagnitude ? (runs, share) : (SampleRuns.None, 0);
    }

    /// <summary>Whether sound comes to the ceiling from anywhere. A tone whose period fits the samples comes from the same place every time, and is whole.</summary>
    private bool Wanders => _runsAt > 0 && (_squares / _runsAt) - (_before / _runsAt * (_before / _runsAt)) > 0.05 * 0.05;

    private float Tolerance => MathF.Max(_step, Fine * _level);

    private void Raise(float level)
    {
        // What lay at the old level may still lie near the new one.
        (_near, _at, _from) = (_level > level * (1 - Coarse) ? _near : 0, 0, -1);
        (_runs, _level, _runsAt, _before, _squares) = (new(joinWithinFrames), level, 0, 0, 0);
    }

    private void Next(float sample, long frame)
    {
        var magnitude = MathF.Abs(sample);
        if (magnitude < _level * (1 - Coarse))
        {
            Close(frame);
            return;
        }

        _near++;
        if (magnitude < _level - Tolerance)
        {
            Close(frame);
            return;
        }

        _at++;
        if (_from >= 0)
            return;
        _from = frame;
        double before = _last * MathF.Sign(sample) / _level;
        (_runsAt, _before, _squares) = (_runsAt + 1, _before + before, _squares + (before * before));
    }

    private void Close(long frame)
    {
        if (_from >= 0)
            _runs.Add(_from, frame, _level);
        _from = -1;
    }
}
