using Athwart.Figures.Rigs;
using Athwart.Microphones.Rigs;
using Athwart.Microphones.Subjects;
using Athwart.Quantities;
using static System.FormattableString;

namespace Athwart.Jobs.PlanRig;

/// <summary>The pictures of a plan, each with words that say the same.</summary>
internal static class RigPictures
{
    private static readonly Hertz Reference = new(1000);

    /// <summary>In the order of the page.</summary>
    public static IReadOnlyList<PictureSection> All { get; } =
    [
        new("above", "From above", "The coverage: what is inside it spreads from loudspeaker to loudspeaker, what is outside comes from one of them.", FromAbove),
        new("polar", "What each hears", "Mid, side, and the decoded left and right, by where the sound comes from. Thin lines are lobes of opposite polarity.", Polar),
        new("difference", "Left against right", "The level difference by the place of the source, and where it is enough to sound from one side alone.", Difference),
        new("level", "Turning the side level", "What another side level would do to the coverage and to the feeling of the room.", SideLevel),
        new("noise", "Noise", "What the noise of the decoded left and right is made of.", Noise),
        new("gain", "Gains", "From the noise to full scale in each channel.", Gains),
    ];

    public static string FromAbove(RigPlan plan, string id)
    {
        var d = plan.Document;
        var words = $"{(d.Coverage.Degrees is { } c ? Invariant($"Coverage {c:0} degrees.") : "The coverage is never reached.")}{(d.Subject is { } s ? Invariant($" The subject {s.What} and fills {s.AngleDegrees:0} degrees; it {s.Verdict}.") : "")}";
        return CoverageWedgeFigure.Draw(new(id, "The rig from above", words), d.Coverage.Degrees, Subject(plan.Outing));
    }

    public static string TradeOffs(ChoiceDocument document, string id)
    {
        var known = document.Ranked.Where(r => r.NoiseDecibelsA is not null && r.Cost.Count <= 1 && r.ToBuy.All(b => !b.EndsWith("not known", StringComparison.Ordinal))).ToList();
        var currency = known.SelectMany(r => r.Cost).GroupBy(c => c.Currency, StringComparer.Ordinal).OrderByDescending(g => g.Count()).FirstOrDefault()?.Key ?? "";
        var shown = known.Where(r => r.Cost.Count == 0 || string.Equals(r.Cost[0].Currency, currency, StringComparison.Ordinal)).ToList();
        var words = Invariant($"{shown.Count} pairs; the best trade-offs are {string.Join("; ", shown.Where(r => r.TradeOff).Select(r => Invariant($"{r.Place}: {r.Rig}, {Amount(r):0.##} {currency}, {r.NoiseDecibelsA:0.0} dBA")))}.");
        return TradeOffFigure.Draw(new(id, "Cost against noise", words), [.. shown.Select(r => new TradeOffPoint(r.Place, (double)(Amount(r)), r.NoiseDecibelsA!.Value, r.TradeOff))], currency);
    }

    private static WedgeSubject? Subject(Outing outing)
    {
        if (outing.Still is { } still)
            return new(still.WidthMetres / 2, -still.WidthMetres / 2, still.DistanceMetres, false, true);
        if (outing.Path is not { } path)
            return null;
        var before = path.ClosestAlongMetres ?? (path.LengthMetres / 2);
        var after = path.LengthMetres - before;
        var fromLeft = path.From == PassingFrom.Left;
        return new(fromLeft ? before : after, fromLeft ? -after : -before, path.ClosestMetres, true, fromLeft);
    }

    private static string Polar(RigPlan plan, string id)
    {
        var pair = plan.Rig.Pair;
        var figures = plan.Document.VirtualPair;
        var words = Invariant($"Mid {plan.Document.Parts.MidPattern}, side figure-8 with its plus to the left. Left and right hear like {figures.Pattern} {figures.IncludedAngleDegrees:0} degrees apart.");
        return PolarFigure.Draw(
            new(id, "Polar patterns", words),
            [
                new("mid", "mid", a => pair.MidGain(new(a), Reference)),
                new("side", "side", a => pair.SideGain(new(a), Reference)),
                new("left", "left", a => pair.LeftGain(new(a), Reference)),
                new("right", "right", a => pair.RightGain(new(a), Reference)),
            ]);
    }

    private static string Difference(RigPlan plan, string id)
    {
        var (pair, c) = (plan.Rig.Pair, plan.Document.Coverage);
        var rows = plan.Document.Sources.Where(s => s.AzimuthDegrees is > 0 and <= 90 && s.LeftMinusRightDecibels is not null);
        var words = $"Left minus right: {string.Join(", ", rows.Select(s => Invariant($"{s.LeftMinusRightDecibels:0.0} dB at {s.AzimuthDegrees:0}°")))}; the right side mirrors it.";
        return LevelDifferenceFigure.Draw(new(id, "Level difference", words), a => pair.LevelDifference(new(a), Reference)?.Value, c.ThresholdDecibels, c.Degrees);
    }

    private static string SideLevel(RigPlan plan, string id)
    {
        var pair = plan.Rig.Pair;
        double? CoverageAt(double level, Decibels threshold) => Coverage.Of(pair with { SideLevel = new(level) }, threshold, Reference)?.Value;
        var words = string.Join(", ", ((double[])[-12, -6, 0, 6]).Select(l => Invariant($"{l:0} dB: {(CoverageAt(l, Coverage.FullSide) is { } c ? Invariant($"{c:0}°") : "never")}")));
        return SideLevelFigure.Draw(
            new(id, "Coverage and correlation by side level", $"Coverage at 15 dB: {words}."),
            level => CoverageAt(level, Coverage.FullSide),
            level => CoverageAt(level, Coverage.FullSideWide),
            level => DiffuseField.Of(pair with { SideLevel = new(level) }, Reference).Correlation,
            plan.Rig.SideLevel.Value);
    }

    private static string Noise(RigPlan plan, string id)
    {
        var n = plan.Document.Noise;
        double? Part(string origin) => n.Parts.FirstOrDefault(p => string.Equals(p.Origin, origin, StringComparison.Ordinal))?.DecibelsA;
        List<NoiseBar> bars =
        [
            new("mid microphone", Part("mid-microphone"), "mid"),
            new("mid input", Part("mid-input"), "mid"),
            new("side microphone", Part("side-microphone"), "side"),
            new("side input", Part("side-input"), "side"),
            new("left and right", n.LeftRightDecibelsA, "total"),
            new("mono", n.MonoDecibelsA, "total"),
        ];
        var words = string.Join(", ", bars.Select(b => b.DecibelsA is { } level ? Invariant($"{b.Name} {level:0.0} dBA") : b.Name + " not known"));
        return NoiseBudgetFigure.Draw(new(id, "Noise budget", words + "."), bars, plan.Outing.QuietestDecibels);
    }

    private static string Gains(RigPlan plan, string id)
    {
        var gains = plan.Document.Gains;
        GainColumn Column(string name, string @class, ChannelRow? c) => new(
            name,
            c?.GainDecibels is { } g ? Invariant($"{g:0.#} dB") : RigFacts.NotKnown,
            @class,
            c?.NoiseDecibelsFullScale,
            c?.QuietestDecibelsFullScale,
            c?.LoudestDecibelsFullScale,
            c?.LoudestDecibelsFullScale + c?.MicrophoneMarginDecibels);
        List<GainColumn> columns = [Column("Mid", "mid", gains?.Mid), Column("Side", "side", gains?.Side)];
        var words = string.Join(" ", columns.Select(c => Invariant($"{c.Name}: gain {c.Gain}, loudest peak {c.Loudest:0.0} dBFS, quietest sound {c.Quietest:0.0} dBFS, noise {c.Noise:0.0} dBFS.")));
        return GainLadderFigure.Draw(new(id, "Gains", gains is null ? "No gains are planned: a recorder and the levels are needed." : words), columns);
    }

    private static decimal Amount(ChoiceRow row) => row.Cost.Count == 0 ? 0 : row.Cost[0].Amount;

}

/// <summary>One kind of picture.</summary>
/// <param name="Id">Begins its ids.</param>
/// <param name="Heading">Its heading.</param>
/// <param name="Say">What it is for.</param>
/// <param name="Draw">Draws it with an id of its own.</param>
internal sealed record PictureSection(string Id, string Heading, string Say, Func<RigPlan, string, string> Draw);
