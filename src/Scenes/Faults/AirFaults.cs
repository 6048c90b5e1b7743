using Athwart.Quantities;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rendering;

namespace Athwart.Scenes.Faults;

/// <summary>Turbulent pressure at the capsules, incoherent between them, with gusts both share.</summary>
/// <param name="LevelDecibels">Sound pressure level at the mid over the stretch, root mean square before the microphone's low end.</param>
/// <param name="CornerHertz">The pressure power falls as f^(−7/3) above this and is flat below.</param>
/// <param name="GustDecibels">How far the level swings, as a standard deviation.</param>
/// <param name="SideExcessDecibels">How much more a figure-8 takes than the mid; gradient microphones are the more sensitive.</param>
/// <remarks>Slope and incoherence: see docs/sources.md, wind. The excess is common practice, no source.</remarks>
public sealed record Wind(double LevelDecibels, double CornerHertz = 4, double GustDecibels = 4, double SideExcessDecibels = 4) : Fault
{
    private const double PressurePowerExponent = 7.0 / 3;
    private const double GustHertz = 0.4;

    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Pressure;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var gusts = Gusts(take, chance.Fork("gusts"));
        foreach (var role in WorkingTake.Roles(Role))
        {
            var chain = new FilterChain(SlopeLadder.Sections(PressurePowerExponent, CornerHertz, take.Rate));
            var noise = new ShapedNoise(chance.Fork("turbulence", (int)role), chain, take.Rate, 1);
            var level = LevelDecibels + (role == ChannelRole.Side ? SideExcessDecibels : 0);
            Added.To(Samples(take, role), _ => noise.Next(), gusts, Levels.Pascal(level));
        }

        take.Items.Add(Item(take, FaultKinds.Wind, LevelDecibels, "dB SPL") with { Details = [new("side above mid", SideExcessDecibels, "dB")] });
    }

    private double[] Gusts(WorkingTake take, Chance chance)
    {
        var swing = new ShapedNoise(chance, new(FilterDesigns.Low2(GustHertz, take.Rate)), take.Rate, GustDecibels);
        var envelope = Added.Edges(Samples(take, ChannelRole.Mid).Length, take.Rate, IsWhole(take));
        for (var i = 0; i < envelope.Length; i++)
            envelope[i] *= Levels.Ratio(swing.Next());
        return envelope;
    }
}

/// <summary>Low sound that reaches both capsules alike, through the stand or the ground.</summary>
/// <param name="LevelDecibels">Sound pressure level at the mid over the stretch, root mean square.</param>
/// <param name="LowHertz">Lower edge.</param>
/// <param name="HighHertz">Upper edge.</param>
/// <param name="SideDecibels">Side against mid.</param>
public sealed record Rumble(double LevelDecibels, double LowHertz = 8, double HighHertz = 40, double SideDecibels = -3) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Pressure;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var count = Samples(take, ChannelRole.Mid).Length;
        var chain = new FilterChain([.. FilterDesigns.High(LowHertz, take.Rate, 2), .. FilterDesigns.Low4(HighHertz, take.Rate)]);
        var noise = new ShapedNoise(chance, chain, take.Rate, 1).Take(count);
        var edges = Added.Edges(count, take.Rate, IsWhole(take));
        foreach (var role in WorkingTake.Roles(Role))
            Added.To(Samples(take, role), i => noise[i], edges, Levels.Pascal(LevelDecibels + (role == ChannelRole.Side ? SideDecibels : 0)));
        take.Items.Add(Item(take, FaultKinds.Rumble, LevelDecibels, "dB SPL") with { Details = [new("side above mid", SideDecibels, "dB")] });
    }
}

/// <summary>Thumps on the stand or the cable, which reach both capsules, each in its own way.</summary>
/// <param name="Times">When, seconds of the take.</param>
/// <param name="PeakDecibels">Peak sound pressure level of each at the role it is strongest in.</param>
public sealed record Handling(IReadOnlyList<double> Times, double PeakDecibels) : Fault
{
    private const double LengthSeconds = 0.3;

    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Pressure;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        List<FrameRange> places = [];
        for (var k = 0; k < Times.Count; k++)
        {
            var from = (int)Math.Clamp(Math.Round(Times[k] * take.Rate), 0, take.Frames);
            var to = (int)Math.Min(from + (LengthSeconds * take.Rate), take.Frames);
            var thump = Thump(take.Rate, to - from, chance.Fork("thump", k));
            foreach (var role in WorkingTake.Roles(Role))
                AddThump(take.Stretch(role, from, to), thump, role == ChannelRole.Side ? chance.Fork("share", k).Between(-1, 1) : 1);
            places.Add(FrameRange.FromFrames(from, to));
        }

        if (places.Count > 0)
            take.Items.Add(new() { Kind = FaultKinds.Handling, Role = Role, Range = new(places[0].From, places[^1].To), Size = PeakDecibels, Unit = "dB SPL peak", Places = places });
    }

    private void AddThump(Span<double> plane, double[] thump, double share)
    {
        var scale = Levels.Pascal(PeakDecibels) * (Role is null ? share : 1);
        for (var i = 0; i < plane.Length; i++)
            plane[i] += scale * thump[i];
    }

    private static double[] Thump(double rate, int count, Chance chance)
    {
        var (hertz, decay, edge) = (chance.Ratio(20, 70), chance.Between(0.025, 0.06), new FilterChain(FilterDesigns.Low2(400, rate)));
        var samples = new double[count];
        for (var i = 0; i < count; i++)
        {
            var t = i / rate;
            var scrape = edge.Next(chance.Normal()) * Math.Exp(-t / 0.01);
            samples[i] = (Math.Sin(2 * Math.PI * hertz * t) * Math.Exp(-t / decay)) + (0.6 * scrape);
        }

        return Sources.SignalGrid.ToUnitPeak(samples);
    }
}
