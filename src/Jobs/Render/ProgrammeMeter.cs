using Athwart.Metering;

namespace Athwart.Jobs.Render;

/// <summary>True peak and integrated loudness for trims; a stream with samples that are not finite reads not a number.</summary>
public sealed class ProgrammeMeter : IProgrammeMeter
{
    private readonly LoudnessMeter _loudness;
    private readonly TruePeakMeter _left;
    private readonly TruePeakMeter _right;
    private bool _finite = true;

    /// <summary>A meter that was just reset.</summary>
    /// <param name="sampleRateHertz">8 000 to 768 000 Hz.</param>
    public ProgrammeMeter(int sampleRateHertz)
    {
        _loudness = new(sampleRateHertz);
        _left = new(sampleRateHertz);
        _right = new(sampleRateHertz);
    }

    /// <inheritdoc/>
    public void Add(ReadOnlySpan<float> left, ReadOnlySpan<float> right)
    {
        _finite = _finite && AllFinite(left) && AllFinite(right);
        if (!_finite)
            return;
        _loudness.Add(left, right);
        _left.Add(left);
        _right.Add(right);
    }

    /// <inheritdoc/>
    public (double TruePeakDecibels, double IntegratedLufs) Complete() => _finite
        ? (Math.Max(_left.Peak.Value, _right.Peak.Value), _loudness.Measure().Integrated.Value)
        : (double.NaN, double.NaN);

    private static bool AllFinite(ReadOnlySpan<float> samples)
    {
        foreach (var sample in samples)
        {
            if (!float.IsFinite(sample))
                return false;
        }

        return true;
    }
}
