using Athwart.Signals.Convolution;
using Athwart.Signals.Delays;

namespace Athwart.Signals.Shaping;

/// <summary>Moves one role, or both, in time; parts of a frame count.</summary>
public sealed record Delay
{
    /// <summary>The furthest either way, in milliseconds.</summary>
    public const double MostMilliseconds = 2000;

    /// <summary>Names what is moved and how far.</summary>
    /// <param name="roles">Mid, side or both.</param>
    /// <param name="milliseconds">−2000 to 2000 ms: later above 0, earlier below.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is out of range.</exception>
    public Delay(PairRoles roles, double milliseconds)
    {
        Roles = SettingsRules.Roles(roles);
        Milliseconds = SettingsRules.Within(milliseconds, -MostMilliseconds, MostMilliseconds, "ms");
    }

    /// <summary>What is moved.</summary>
    public PairRoles Roles { get; }

    /// <summary>How far, in milliseconds; later above 0, earlier below.</summary>
    public double Milliseconds { get; }

    /// <summary>How far in frames at a rate.</summary>
    /// <param name="sampleRateHertz">Sample rate in hertz.</param>
    public double Frames(int sampleRateHertz) => Milliseconds * sampleRateHertz / 1000;
}

/// <summary>
/// <see cref="Delay"/> at work. Whole frames keep every bit; parts are flat within 0.001 dB to 0.9 of half the rate. To make a role earlier
/// the stage holds back the other one: its latency is what the earliest role needs.
/// </summary>
public sealed class DelayStage : IPairStage
{
    // Nearer to a whole number of frames than this counts as whole; a hundredth is what matters.
    private const double Whole = 1e-6;

    private readonly PairRoles _roles;
    private readonly DelayLine _midLine;
    private readonly DelayLine _sideLine;
    private readonly ShortFilter? _midPart;
    private readonly ShortFilter? _sidePart;

    /// <summary>Prepares the delay at a rate.</summary>
    /// <param name="settings">What to do.</param>
    /// <param name="sampleRateHertz">Sample rate in hertz.</param>
    public DelayStage(Delay settings, int sampleRateHertz)
    {
        _roles = settings.Roles;
        var frames = settings.Frames(SettingsRules.Rate(sampleRateHertz));
        var nearest = Math.Round(frames);
        var taps = Math.Abs(frames - nearest) <= Whole ? null : FractionalDelay.Design(frames - Math.Floor(frames));
        var whole = (int)(taps is null ? nearest : Math.Floor(frames) - FractionalDelay.WholeFrames);
        LatencyFrames = Math.Max(0, -whole);
        SettlingFrames = LatencyFrames + Math.Max(0, whole) + (taps?.Length ?? 0);
        (_midLine, _midPart) = Role(PairRoles.Mid, whole, taps);
        (_sideLine, _sidePart) = Role(PairRoles.Side, whole, taps);
    }

    /// <inheritdoc/>
    public int LatencyFrames { get; }

    /// <inheritdoc/>
    public long SettlingFrames { get; }

    /// <inheritdoc/>
    public void Begin(long firstFrame)
    {
        _midLine.Reset();
        _sideLine.Reset();
        _midPart?.Reset();
        _sidePart?.Reset();
    }

    /// <inheritdoc/>
    public void Process(Span<double> mid, Span<double> side)
    {
        SettingsRules.SameLength(mid, side);
        _midLine.Process(mid);
        _midPart?.Process(mid);
        _sideLine.Process(side);
        _sidePart?.Process(side);
    }

    private (DelayLine Line, ShortFilter? Part) Role(PairRoles role, int whole, double[]? taps) => _roles.HasFlag(role)
        ? (new(LatencyFrames + whole), taps is null ? null : new ShortFilter(taps))
        : (new(LatencyFrames), null);
}
