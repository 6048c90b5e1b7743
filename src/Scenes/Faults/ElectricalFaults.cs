using Athwart.Quantities;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rendering;

namespace Athwart.Scenes.Faults;

/// <summary>Mains hum: a fundamental that drifts, and its harmonics.</summary>
/// <param name="LevelDecibelsFullScale">20·lg of the root mean square of it all over the stretch; a sine at full scale reads −3.01.</param>
/// <param name="FundamentalHertz">The mean; about 50 or 60.</param>
/// <param name="HarmonicsDecibels">Level of each harmonic against the first, the first included; −∞ leaves one out.</param>
/// <param name="DriftHertz">How far the fundamental swings to each side, slowly.</param>
public sealed record Hum(double LevelDecibelsFullScale, double FundamentalHertz = 50, IReadOnlyList<double>? HarmonicsDecibels = null, double DriftHertz = 0) : Fault
{
    private const double DriftPeriodSeconds = 17;
    private static readonly double[] UsualHarmonics = [0, -12, -6, -20, -14, -26, -20];

    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Electrical;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var levels = HarmonicsDecibels ?? UsualHarmonics;
        var phases = levels.Select((_, k) => chance.Fork("phase", k).Unit()).ToArray();
        var count = Samples(take, ChannelRole.Mid).Length;
        var edges = Added.Edges(count, take.Rate, IsWhole(take));
        var (drift, amplitudes) = (chance.Unit(), levels.Select(Levels.Ratio).ToArray());
        foreach (var role in WorkingTake.Roles(Role))
            Added.To(Samples(take, role), i => At(i / (double)take.Rate, amplitudes, phases, drift), edges, Levels.Ratio(LevelDecibelsFullScale));
        take.Items.Add(Item(take, FaultKinds.Hum, LevelDecibelsFullScale, "dBFS") with
        {
            Details = [new("fundamental", FundamentalHertz, "Hz"), new("drift", DriftHertz, "Hz"), .. levels.Select((level, k) => new Evidence(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"harmonic {k + 1}"), level, "dB"))],
        });
    }

    // The frequency is F + D·sin(2π·t/T + φ); its integral gives the phase.
    private double At(double seconds, double[] amplitudes, double[] phases, double drift)
    {
        var turns = (FundamentalHertz * seconds) - (DriftHertz * DriftPeriodSeconds / (2 * Math.PI) * Math.Cos(2 * Math.PI * ((seconds / DriftPeriodSeconds) + drift)));
        double sum = 0;
        for (var k = 0; k < amplitudes.Length; k++)
            sum += amplitudes[k] * Math.Sin(2 * Math.PI * (((k + 1) * turns) + phases[k]));
        return sum;
    }
}

/// <summary>A line, steady or sweeping evenly from one frequency to another over the stretch.</summary>
/// <param name="LevelDecibelsFullScale">20·lg of its root mean square.</param>
/// <param name="FromHertz">Where it starts; below half the rate.</param>
/// <param name="ToHertz">Where it ends; the start when 0.</param>
public sealed record Tone(double LevelDecibelsFullScale, double FromHertz, double ToHertz = 0) : Fault
{
    private const double UltrasonicHertz = 20000;

    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Electrical;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var end = ToHertz == 0 ? FromHertz : ToHertz;
        if (Math.Max(FromHertz, end) >= take.Rate / 2.0)
            throw new InvalidOperationException($"A line at {Math.Max(FromHertz, end)} Hz does not fit into half of {take.Rate} Hz.");
        var count = Samples(take, ChannelRole.Mid).Length;
        var (seconds, phase) = (count / (double)take.Rate, chance.Unit());
        var edges = Added.Edges(count, take.Rate, IsWhole(take));
        foreach (var role in WorkingTake.Roles(Role))
        {
            Added.To(Samples(take, role), i => Sine(i / (double)take.Rate), edges, Levels.Ratio(LevelDecibelsFullScale));
        }

        var kind = Math.Min(FromHertz, end) >= UltrasonicHertz ? FaultKinds.UltrasonicSpur : FaultKinds.Tone;
        take.Items.Add(Item(take, kind, LevelDecibelsFullScale, "dBFS") with { Details = [new("from", FromHertz, "Hz"), new("to", end, "Hz")] });

        double Sine(double t) => Math.Sin(2 * Math.PI * ((FromHertz * t) + ((end - FromHertz) * t * t / (2 * seconds)) + phase));
    }
}

/// <summary>White noise of the input.</summary>
/// <param name="LevelDecibelsFullScale">20·lg of its root mean square, from 0 Hz to half the rate.</param>
public sealed record Hiss(double LevelDecibelsFullScale) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Electrical;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        foreach (var role in WorkingTake.Roles(Role))
        {
            var noise = chance.Fork("hiss", (int)role);
            var samples = Samples(take, role);
            Added.To(samples, _ => noise.Normal(), Added.Edges(samples.Length, take.Rate, IsWhole(take)), Levels.Ratio(LevelDecibelsFullScale));
        }

        take.Items.Add(Item(take, FaultKinds.Hiss, LevelDecibelsFullScale, "dBFS"));
    }
}

/// <summary>The side comes late by a constant that is no spacing.</summary>
/// <param name="LateSamples">Samples of the take, with fractions; negative when early.</param>
public sealed record LateSide(double LateSamples) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Electrical;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        if (!(Math.Abs(LateSamples) < take.Lead / 2.0))
            throw new InvalidOperationException($"A side {LateSamples} samples late is beyond the {take.Lead / 2} a scene allows.");
        var late = new double[take.Side.Length];
        for (var i = 0; i < late.Length; i++)
            late[i] = FractionalDelay.At(take.Side, i - LateSamples);
        take.Side = late;
        take.Items.Add(Item(take, FaultKinds.LateSide, LateSamples, "samples") with { Role = ChannelRole.Side });
    }
}

/// <summary>The low end of the side, or of another role, is missing.</summary>
/// <param name="CornerHertz">−3 dB.</param>
/// <param name="Order">Butterworth order, 1 to 4.</param>
public sealed record LowEndMissing(double CornerHertz, int Order = 2) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Electrical;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var role = Role ?? ChannelRole.Side;
        new FilterChain(FilterDesigns.High(CornerHertz, take.Rate, Order)).Run(take.Plane(role));
        take.Items.Add(Item(take, FaultKinds.SideLowEndMissing, CornerHertz, "Hz") with { Role = role, Details = [new("order", Order, "")] });
    }
}
