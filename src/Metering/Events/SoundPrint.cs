namespace Athwart.Metering.Events;

/// <summary>What a sound is like, whatever its level and place: its spectrum in a few stretches of time that double in length from its start.</summary>
public sealed class SoundPrint
{
    /// <summary>What counts as nothing beside the loudest, decibels.</summary>
    internal const double Range = 30;

    private readonly float[] _levels;
    private readonly double[] _weights;

    internal SoundPrint(float[] levels, double[] weights) => (_levels, _weights) = (levels, weights);

    /// <summary>How different two sounds are: the difference of their levels, root mean square over bands and stretches, those counting most in which either has most of its sound; decibels.</summary>
    /// <returns>0 for the same sound at any level; under about 6 for variations of one sound; the same both ways. Against silence: <see cref="Range"/>.</returns>
    public double DistanceTo(SoundPrint other)
    {
        ArgumentNullException.ThrowIfNull(other);
        var (sum, total) = (0.0, 0.0);
        var bands = _levels.Length / _weights.Length;
        for (var i = 0; i < _levels.Length; i++)
        {
            var weight = Math.Max(_weights[i / bands], other._weights[i / bands]);
            var difference = _levels[i] - other._levels[i];
            sum += weight * difference * difference;
            total += weight;
        }

        return total > 0 ? Math.Sqrt(sum / total) : 0;
    }
}
