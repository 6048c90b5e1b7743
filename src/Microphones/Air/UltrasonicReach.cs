using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Air;

/// <summary>How strong a source is by frequency, in third-octave bands at 1 m.</summary>
/// <param name="BandDecibels">Level in dB SPL of the third-octave band at <paramref name="AtHertz"/>.</param>
/// <param name="AtHertz">The frequency of that band, above 0.</param>
/// <param name="SlopeDecibelsPerOctave">How the band level goes on from there, in dB per octave; 0 keeps it.</param>
public readonly record struct SourceSpectrum(double BandDecibels, double AtHertz = 1000, double SlopeDecibelsPerOctave = 0)
{
    /// <summary>The level in dB SPL of the third-octave band at a frequency, at 1 m.</summary>
    public double At(double hertz) => BandDecibels + (SlopeDecibelsPerOctave * Math.Log2(hertz / AtHertz));
}

/// <summary>What ends a recording's useful range at the top.</summary>
public enum ReachLimit
{
    /// <summary>Above, the source sinks into the rig's noise.</summary>
    Noise,

    /// <summary>Above, the microphone falls off.</summary>
    Microphone,

    /// <summary>Above is more than half the sample rate.</summary>
    Rate,

    /// <summary>The formula for air is not asked beyond 100 kHz.</summary>
    Formula,
}

/// <summary>Up to which frequency a recording meant for slowing down is worth anything.</summary>
/// <remarks>
/// In each third-octave band the source after spreading and air is set against the rig's noise, which is taken as white: as many
/// decibels per hertz everywhere, so that its A-weighted sum from 20 Hz to 20 kHz is the rig's noise in dBA. Real microphones are noisier
/// at the low and sometimes at the high end. A sanity figure, no promise; the noise of the place is not in it.
/// </remarks>
public sealed record UltrasonicReach
{
    /// <summary>The highest useful frequency in hertz; null when the source is nowhere above the noise, or not known.</summary>
    public double? HighestHertz { get; init; }

    /// <summary>What ends it there; null when there is no such frequency.</summary>
    public ReachLimit? LimitedBy { get; init; }

    /// <summary>The highest frequency in hertz at which the source is above the noise, whatever microphone and rate allow, at most 100 kHz.</summary>
    public double? AboveNoiseHertz { get; init; }

    /// <summary>What the air takes at <see cref="HighestHertz"/> beyond the first metre, in dB.</summary>
    public double? AirDecibels { get; init; }

    /// <summary>Why an answer is null or only an upper bound; empty when neither.</summary>
    public required IReadOnlyList<string> Reasons { get; init; }

    /// <summary>Finds it.</summary>
    /// <param name="source">The source at 1 m.</param>
    /// <param name="metres">Distance of the microphones, above 0.</param>
    /// <param name="air">The weather.</param>
    /// <param name="noiseDecibelsA">The rig's noise in dBA; null when not known.</param>
    /// <param name="microphoneHighHertz">The lower of the microphones' −3 dB points at the top; null when not known, which leaves an upper bound.</param>
    /// <param name="rateHertz">The sample rate.</param>
    /// <param name="marginDecibels">How far above the noise counts, in dB; 0 unless said.</param>
    public static UltrasonicReach For(SourceSpectrum source, double metres, AirConditions air, double? noiseDecibelsA, double? microphoneHighHertz, double rateHertz, double marginDecibels = 0)
    {
        air.Checked();
        Require.Positive(metres);
        Require.Positive(rateHertz);
        var reasons = new List<string>();
        if (microphoneHighHertz is null)
            reasons.Add("The high end of a microphone is not known: the reach is an upper bound.");
        if (noiseDecibelsA is not { } noise)
        {
            reasons.Add("The noise of the rig is not known: no reach.");
            return new() { Reasons = reasons };
        }

        var above = ReachSearch.Highest(hertz => SoundPath.LevelDecibels(source.At(hertz), 1, metres, air, hertz) - BandNoise.ThirdOctaveDecibels(noise, hertz) - marginDecibels);
        if (above is not { } aboveNoise)
        {
            reasons.Add("The source is below the rig's noise at every frequency: go nearer.");
            return new() { Reasons = reasons };
        }

        var (highest, limit) = Lowest(aboveNoise, microphoneHighHertz, rateHertz);
        return new() { HighestHertz = highest, LimitedBy = limit, AboveNoiseHertz = aboveNoise, AirDecibels = AirAbsorption.DecibelsPerMetre(air, Math.Min(highest, AirAbsorption.HighestHertz)) * (metres - 1), Reasons = reasons };
    }

    private static (double Hertz, ReachLimit Limit) Lowest(double aboveNoise, double? microphone, double rate)
    {
        var best = (Hertz: aboveNoise, Limit: aboveNoise >= AirAbsorption.HighestHertz ? ReachLimit.Formula : ReachLimit.Noise);
        if (microphone < best.Hertz)
            best = (microphone.Value, ReachLimit.Microphone);
        return rate / 2 < best.Hertz ? (rate / 2, ReachLimit.Rate) : best;
    }
}
