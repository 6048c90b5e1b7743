using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping;

/// <summary>How the image is turned.</summary>
public enum BalanceMethod
{
    /// <summary>Some mid is mixed into the side: the mono stays as it is, to the bit.</summary>
    Steer,

    /// <summary>Mid and side are turned against each other, their energy kept: the mono turns too, away from the side the image turns to.</summary>
    Rotate,
}

/// <summary>Turns the image a little: what came from so many degrees to the right lands in the middle, what came from ahead to the left.</summary>
/// <remarks>
/// Said for a mid A + (1 − A)·cos θ and a side sin θ that were recorded alike; where they were not, trim first. With
/// t = sin δ/(A + (1 − A)·cos δ) steering adds t·mid to the side; rotating turns by atan t, which for a figure-8 mid is δ itself. What it does
/// to image and mono is in <c>Microphones.Width.BalanceFigures</c>. Source: derived from the matrix.
/// </remarks>
public sealed record Balance
{
    /// <summary>Names the turn.</summary>
    /// <param name="degrees">To the left, −45 to +45; below 0 to the right.</param>
    /// <param name="method">Steer unless the energy is to be kept at the cost of the mono.</param>
    /// <param name="midOmniShare">A of the mid: 0 figure-8, 0.5 cardioid, 1 omni. A cardioid where the rig is not known.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is out of range.</exception>
    public Balance(double degrees, BalanceMethod method = BalanceMethod.Steer, double midOmniShare = 0.5)
    {
        Degrees = SettingsRules.Within(degrees, -45, 45, "degrees");
        Method = method is BalanceMethod.Steer or BalanceMethod.Rotate ? method
            : throw new ArgumentOutOfRangeException(nameof(method), method, "A balance steers or rotates; name one of them.");
        MidOmniShare = SettingsRules.Within(midOmniShare, 0, 1, "");
    }

    /// <summary>How far to the left, in degrees.</summary>
    public double Degrees { get; }

    /// <summary>How.</summary>
    public BalanceMethod Method { get; }

    /// <summary>A of the mid's pattern.</summary>
    public double MidOmniShare { get; }

    /// <summary>t, the share of mid in the side.</summary>
    internal double Share => FixedTrigonometry.SinPi(Degrees / 180) / (MidOmniShare + ((1 - MidOmniShare) * FixedTrigonometry.SinPi(0.5 - (Degrees / 180))));
}

/// <summary><see cref="Balance"/> at work, no latency; at 0 degrees every bit stays.</summary>
public sealed class BalanceStage : IPairStage
{
    private readonly bool _steers;
    private readonly double _share;
    private readonly double _cosine;
    private readonly double _sine;

    /// <summary>A stage for a turn.</summary>
    public BalanceStage(Balance settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        _steers = settings.Method == BalanceMethod.Steer;
        _share = settings.Share;
        _cosine = 1 / Math.Sqrt(1 + (_share * _share));
        _sine = _share * _cosine;
    }

    /// <inheritdoc/>
    public int LatencyFrames => 0;

    /// <inheritdoc/>
    public long SettlingFrames => 0;

    /// <inheritdoc/>
    public void Begin(long firstFrame)
    {
    }

    /// <inheritdoc/>
    public void Process(Span<double> mid, Span<double> side)
    {
        SettingsRules.SameLength(mid, side);
        if (_share == 0)
            return;
        if (_steers)
            Steer(mid, side);
        else
            Rotate(mid, side);
    }

    private void Steer(ReadOnlySpan<double> mid, Span<double> side)
    {
        for (var n = 0; n < side.Length; n++)
            side[n] += _share * mid[n];
    }

    private void Rotate(Span<double> mid, Span<double> side)
    {
        for (var n = 0; n < side.Length; n++)
            (mid[n], side[n]) = ((_cosine * mid[n]) - (_sine * side[n]), (_cosine * side[n]) + (_sine * mid[n]));
    }
}
