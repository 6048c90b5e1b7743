using Athwart.Signals.Filters;
using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping;

/// <summary>The mains frequency from a frame of the take on.</summary>
/// <param name="Frame">Frame number in the take.</param>
/// <param name="Hertz">Fundamental frequency there, in hertz.</param>
public readonly record struct FrequencyPoint(long Frame, double Hertz);

/// <summary>Takes out hum: a narrow cut at a fundamental and at multiples of it, which follow the fundamental as it drifts.</summary>
public sealed record HumCut
{
    /// <summary>The highest multiple on offer.</summary>
    public const int HighestHarmonic = 100;

    private readonly EquatableList<FrequencyPoint> _track;
    private readonly EquatableList<int> _harmonics;

    /// <summary>Names where the hum is and how wide the cuts are.</summary>
    /// <param name="roles">Mid, side or both.</param>
    /// <param name="track">
    /// The fundamental over time, 1 to 100000 points with rising frames, 10 to 1000 Hz; straight lines between, level before the first and after
    /// the last. One point for hum that stays.
    /// </param>
    /// <param name="harmonics">Which multiples are cut, rising, 1 to 100; 1 is the fundamental. Those beyond 0.95 of half the rate are left out.</param>
    /// <param name="widthHertz">Distance between the two places of each cut that are 3 dB down (for deep cuts), 0.05 to 50 Hz.</param>
    /// <param name="depthDecibels">How deep, 1 to 120 dB, or +∞ for a null.</param>
    /// <exception cref="ArgumentException">A setting is out of range or out of order.</exception>
    public HumCut(PairRoles roles, IReadOnlyList<FrequencyPoint> track, IReadOnlyList<int> harmonics, double widthHertz, double depthDecibels)
    {
        Roles = SettingsRules.Roles(roles);
        _track = HumRules.Track(track);
        _harmonics = HumRules.Harmonics(harmonics, HighestHarmonic);
        WidthHertz = SettingsRules.Within(widthHertz, 0.05, 50, "Hz");
        DepthDecibels = double.IsPositiveInfinity(depthDecibels) ? depthDecibels : SettingsRules.Within(depthDecibels, 1, 120, "dB");
    }

    /// <summary>What is treated.</summary>
    public PairRoles Roles { get; }

    /// <summary>The fundamental over time.</summary>
    public IReadOnlyList<FrequencyPoint> Track => _track;

    /// <summary>The multiples that are cut.</summary>
    public IReadOnlyList<int> Harmonics => _harmonics;

    /// <summary>How wide each cut is, in hertz.</summary>
    public double WidthHertz { get; }

    /// <summary>How deep each cut is, in decibels above 0.</summary>
    public double DepthDecibels { get; }

    /// <summary>The fundamental at a frame of the take, in hertz.</summary>
    public double HertzAt(double frame)
    {
        var (low, high) = (0, Track.Count - 1);
        if (frame <= Track[0].Frame)
            return Track[0].Hertz;
        if (frame >= Track[high].Frame)
            return Track[high].Hertz;
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            (low, high) = Track[middle].Frame <= frame ? (middle, high) : (low, middle);
        }

        var share = (frame - Track[low].Frame) / (Track[high].Frame - Track[low].Frame);
        return Track[low].Hertz + (share * (Track[high].Hertz - Track[low].Hertz));
    }
}

/// <summary><see cref="HumCut"/> at work: no latency; the cuts move every 256 frames of the take.</summary>
/// <remarks>
/// Each cut is 1 − (1 − g)·B, B being the second-order band pass of the width by the bilinear transform, unity at its centre:
/// (1 + gα − 2·cos ω·z⁻¹ + (1 − gα)·z⁻²) / (1 + α − 2·cos ω·z⁻¹ + (1 − α)·z⁻²), α = tan(π·width/rate).
/// </remarks>
public sealed class HumCutStage : IPairStage
{
    private const int Step = 256;
    private const double NepersToNothing = 16.2;

    // The slow tails of many cuts together outlast one by a little.
    private const double Together = 1.25;

    private readonly HumCut _settings;
    private readonly int _rate;
    private readonly int[] _harmonics;
    private readonly SectionCascade _cascade;
    private readonly bool _fixed;
    private readonly double _alpha;
    private readonly double _floor;
    private long _frame;
    private long _tunedAt = long.MinValue;

    /// <summary>Prepares the cuts at a rate.</summary>
    /// <param name="settings">What to do.</param>
    /// <param name="sampleRateHertz">Sample rate in hertz.</param>
    public HumCutStage(HumCut settings, int sampleRateHertz)
    {
        (_settings, _rate) = (settings, SettingsRules.Rate(sampleRateHertz));
        var highest = settings.Track.Max(p => p.Hertz);
        _harmonics = [.. settings.Harmonics.Where(h => h * highest <= FilterLimits.HighestPartOfHalfRate * sampleRateHertz / 2)];
        _alpha = FixedTrigonometry.TanPi(settings.WidthHertz / sampleRateHertz);
        _floor = double.IsPositiveInfinity(settings.DepthDecibels) ? 0 : FixedGain.AmplitudeRatio(-settings.DepthDecibels);
        _fixed = settings.Track.Count == 1;
        var sections = _harmonics.Select(h => Cut(h, settings.Track[0].Hertz)).ToList();
        _cascade = new(settings.Roles.HasFlag(PairRoles.Mid) ? sections : [], settings.Roles.HasFlag(PairRoles.Side) ? sections : []);
        SettlingFrames = (long)(Together * NepersToNothing / _alpha);
    }

    /// <inheritdoc/>
    public int LatencyFrames => 0;

    /// <inheritdoc/>
    public long SettlingFrames { get; }

    /// <inheritdoc/>
    public void Begin(long firstFrame)
    {
        _cascade.Reset();
        (_frame, _tunedAt) = (firstFrame, long.MinValue);
    }

    /// <inheritdoc/>
    public void Process(Span<double> mid, Span<double> side)
    {
        SettingsRules.SameLength(mid, side);
        while (mid.Length > 0)
        {
            var step = _frame - Floored.Rest(_frame, Step);
            Tune(step);
            var count = _fixed ? mid.Length : (int)Math.Min(mid.Length, step + Step - _frame);
            _cascade.Process(mid[..count], side[..count]);
            mid = mid[count..];
            side = side[count..];
            _frame += count;
        }
    }

    private void Tune(long step)
    {
        if (_tunedAt == step || (_fixed && _tunedAt != long.MinValue))
            return;
        _tunedAt = step;
        var hertz = _settings.HertzAt(step + (Step / 2.0));
        for (var k = 0; k < _harmonics.Length; k++)
            _cascade.Retune(k, Cut(_harmonics[k], hertz));
    }

    private BiquadCoefficients Cut(int harmonic, double hertz)
    {
        var below = 1 + _alpha;
        var middle = -2 * FixedTrigonometry.CosPi(2 * harmonic * hertz / _rate) / below;
        return new((1 + (_floor * _alpha)) / below, middle, (1 - (_floor * _alpha)) / below, middle, (1 - _alpha) / below);
    }
}
