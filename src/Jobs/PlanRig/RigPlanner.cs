using Athwart.Jobs.CheckTakes;
using Athwart.Microphones.Air;
using Athwart.Microphones.Choosing;
using Athwart.Microphones.Hearing;
using Athwart.Microphones.Levels;
using Athwart.Microphones.Power;
using Athwart.Microphones.Rigs;
using Athwart.Quantities;

namespace Athwart.Jobs.PlanRig;

/// <summary>Says everything about a rig and an outing in one document.</summary>
public static class RigPlanner
{
    private const double SourceStep = 15;

    private static readonly Hertz Reference = new(1000);

    /// <summary>Plans.</summary>
    public static RigDocument Plan(PlannedRig rig, Outing outing)
    {
        ArgumentNullException.ThrowIfNull(rig);
        ArgumentNullException.ThrowIfNull(outing);
        var pair = rig.Pair;
        var notKnown = new List<string>();
        var noise = DecodedNoise.For(rig.Mid.Setting, rig.Side.Setting, rig.Recorder, rig.SideLevel.Value, outing.QuietestDecibels);
        if (IsIdeal(rig))
            notKnown.Add("Ideal patterns have no figures: gains, noise, weight and price are left out.");
        else
            notKnown.AddRange(noise.Reasons);
        var gains = Gains(rig, outing, notKnown);
        var coverage = CoverageOf(pair, outing.Threshold);
        var frequencies = PairOverFrequency.Of(pair, new(Low(rig.Mid), Low(rig.Side)), outing.Threshold, Highest(rig, outing));
        return new()
        {
            Rig = rig.Words,
            Parts = Parts(rig),
            SideLevel = new(Finite(rig.SideLevel.Value), rig.How, rig.Reached),
            VirtualPair = Virtual(pair),
            Coverage = new(outing.Threshold.Value, coverage, CoverageOf(pair, Coverage.FullSide), CoverageOf(pair, Coverage.FullSideWide)),
            Diffuse = Diffuse(pair),
            Sources = [.. SourceImage.Around(pair, new(SourceStep), outing.Threshold, Reference).Select(Row)],
            Behind = [.. ((double[])[0, 30, 60, 90]).Select(a => Behind(BehindImage.Of(pair, new(a), outing.Threshold, Reference)))],
            Bands = [.. frequencies.Bands.Select(Row)],
            OverFrequency = frequencies.Statements,
            Delay = Delay(outing),
            Gains = gains,
            Noise = Noise(noise),
            Subject = SubjectReport.Of(outing, coverage, degrees => Suiting(pair, outing, degrees)),
            Reach = Reach(rig, outing, noise, notKnown),
            Power = Power(rig, outing, notKnown),
            Exposure = ExposureReports.Of(outing),
            Cautions = outing is { Hazards: SubjectHazards.None, HeadphonesDecibelsA: null, LoudestDecibels: null or < Cautions.LoudDecibelsA, Title: "" } ? [] : [.. Cautions.For(outing.Hazards, outing.LoudestDecibels, outing.Loudest?.PeakDecibels, outing.HeadphonesDecibelsA).Select(c => c.Text)],
            NotKnown = [.. notKnown.Distinct(StringComparer.Ordinal)],
        };
    }

    private static PartsSection Parts(PlannedRig rig)
    {
        var bought = Purchases.Of(rig.Mid.Microphone, rig.Side.Microphone, rig.Recorder, rig.Protection);
        var fit = rig.Protection is { } protection ? ProtectionFit.Of(rig.Mid.Microphone, rig.Side.Microphone, protection).InWords(protection) : null;
        return new(
            rig.Mid.Name,
            rig.Mid.Setting.Pattern.Name,
            rig.Side.Name,
            rig.Recorder?.Name,
            rig.Protection?.Name,
            rig.Mid.Microphone.WeightGrams + rig.Side.Microphone.WeightGrams + (rig.Protection is { } p ? p.WeightGrams : 0),
            [.. bought.Select(b => b.Price is { } price ? $"{b.Name}: {price}" : $"{b.Name}: price not known")],
            [.. Purchases.Sum(bought).Select(p => p.ToString())],
            fit);
    }

    private static VirtualPairSection Virtual(MidSidePair pair)
    {
        var equal = VirtualPair.Of(pair, Reference);
        return new(R(equal.IncludedAngle.Value), R(equal.OmniShare), equal.Pattern.Name, R(equal.Null?.Value), R(equal.OnAxisGain.Value), R(-equal.OnAxisGain.Value), R(equal.FitError));
    }

    private static DiffuseSection Diffuse(MidSidePair pair)
    {
        var field = DiffuseField.Of(pair, Reference);
        return new(
            R(field.Correlation),
            R(field.Mid.Index.Value),
            R(field.Mid.DistanceFactor),
            R(field.Left.Index.Value),
            R(field.Left.DistanceFactor),
            R(field.DirectToDiffuse(pair, default, Reference).Value),
            R(100 * field.RearShare),
            Finite(field.LevelAt180.Value));
    }

    private static SourceRow Row(SourceImage s) => new(
        R(s.Azimuth.Value),
        s.LevelDifference is { } difference ? Finite(difference.Value) : null,
        R(s.Image?.Value),
        R(s.LinearPercent),
        s.FullySideways,
        s.OppositePolarity,
        s.Mirrored,
        Finite(s.LevelAgainstFront.Value));

    private static BehindRow Behind(BehindImage b) => new(R(b.Behind.Azimuth.Value), Finite(b.Behind.LevelAgainstFront.Value), b.Words);

    private static BandRow Row(PairBand b) => new(Math.Round(b.Frequency.Value, 1), Finite(b.SideLevel.Value), R(b.Coverage?.Value), R(b.Correlation), R(b.MidDirectivity.Value), R(b.IncludedAngle.Value));

    private static DelaySection? Delay(Outing outing)
    {
        if (outing.Spacing is not { } spacing)
            return null;
        var (celsius, rate) = (outing.Air.TemperatureCelsius, new Hertz(outing.RateHertz));
        var longest = spacing.Longest(celsius);
        return new(
            R(CapsuleOffset.SpeedOfSound(celsius)),
            R(longest.Microseconds),
            R(longest.Samples(rate)),
            R(longest.FirstNull?.Value),
            [.. ((double[])[0, 45, 90, 135, 180, -45, -90, -135]).Select(a => (Azimuth: a, Delay: spacing.Delay(new(a), celsius))).Select(d => new DelayRow(d.Azimuth, R(d.Delay.Microseconds), R(d.Delay.Samples(rate))))]);
    }

    private static GainSection? Gains(PlannedRig rig, Outing outing, List<string> notKnown)
    {
        if (rig.Recorder is not { } recorder || outing.Loudest is not { } loudest || outing.QuietestDecibels is not { } quietest)
        {
            if (!IsIdeal(rig))
                notKnown.Add("No gains: they need a recorder of the kit, and the quietest and loudest level at the microphones.");
            return null;
        }

        var plan = GainPlan.For(new() { Mid = rig.Mid.Setting, Side = rig.Side.Setting, Recorder = recorder, QuietestDecibels = quietest, Loudest = loudest, HeadroomDecibels = outing.HeadroomDecibels });
        notKnown.AddRange(plan.Reasons);
        return new(
            Channel(plan.Mid),
            Channel(plan.Side),
            R(plan.MatchDecibels),
            R(plan.TrimDecibels),
            R(plan.Shared?.GainDecibels),
            R(plan.Shared?.TrimDecibels),
            [.. plan.Messages.Select(m => m.Text)]);
    }

    private static ChannelRow Channel(ChannelGain c) => new(
        R(c.GainDecibels),
        R(c.LoudestDecibelsFullScale),
        R(c.QuietestDecibelsFullScale),
        R(c.QuietestDecibelsFullScale - c.QuietestAboveNoiseDecibels),
        R(c.MicrophoneMarginDecibels),
        R(c.InputMarginAtLowestGainDecibels));

    private static NoiseSection Noise(DecodedNoise noise) => new(
        R(noise.LeftRightDecibelsA),
        R(noise.MonoDecibelsA),
        R(noise.SideCostDecibels),
        R(noise.SignalToNoiseDecibels),
        R(noise.MonoSignalToNoiseDecibels),
        noise.MicrophonesDominate,
        [.. noise.Parts.Select(p => new NoiseRow(JsonNumber.Word(p.Origin.ToString()), Finite(p.DecibelsA)))]);

    private static ReachSection? Reach(PlannedRig rig, Outing outing, DecodedNoise noise, List<string> notKnown)
    {
        if (outing.Source is not { } source)
            return null;
        if (outing.DistanceMetres is not { } metres)
        {
            notKnown.Add("No reach: the distance of the source is not known.");
            return null;
        }

        double? high = rig.Mid.Setting.HighHertz is { } m && rig.Side.Setting.HighHertz is { } s ? Math.Min(m, s) : null;
        var reach = UltrasonicReach.For(source, metres, outing.Air, noise.LeftRightDecibelsA, high, outing.RateHertz);
        notKnown.AddRange(reach.Reasons);
        double[] bands = [1000, 2000, 4000, 8000, 16_000, 20_000, 25_000, 31_500, 40_000, 50_000, 63_000, 80_000];
        var rows = bands.Where(f => f <= outing.RateHertz / 2).Select(f => new ReachRow(
            f,
            R(SoundPath.LevelDecibels(source.At(f), 1, metres, outing.Air, f)),
            R(AirAbsorption.DecibelsPerMetre(outing.Air, f) * Math.Max(0, metres - 1)),
            noise.LeftRightDecibelsA is { } dBA ? R(BandNoise.ThirdOctaveDecibels(dBA, f)) : null));
        return new(R(reach.HighestHertz), reach.LimitedBy is { } limit ? JsonNumber.Word(limit.ToString()) : null, R(reach.AboveNoiseHertz), R(reach.AirDecibels), [.. rows]);
    }

    private static double? Suiting(MidSidePair pair, Outing outing, double degrees) =>
        degrees < 360 && RigSettings.ForCoverage(pair.Mid, pair.Side, new(degrees), outing.Threshold, Reference) is { Reached: true } setting ? setting.SideLevel.Value : null;

    private static PowerSection? Power(PlannedRig rig, Outing outing, List<string> notKnown)
    {
        if (rig.Recorder is not { } recorder)
            return null;
        var plan = PowerPlan.For(recorder, rig.Mid.Microphone, rig.Side.Microphone, new(outing.RateHertz, outing.WordBits));
        notKnown.AddRange(plan.Reasons);
        return new(R(plan.HoursPerGigabyte), R(plan.StorageHours), R(plan.SplitSeconds / 60), R(plan.PhantomDrawnMilliamperes), plan.PhantomSuffices, R(plan.BatteryHours), plan.RateSuffices);
    }

    // Patterns named on the command line instead of microphones of the kit.
    private static bool IsIdeal(PlannedRig rig) => rig.Mid.Setting.SensitivityMillivoltsPerPascal is null && rig.Mid.Setting.EquivalentNoiseDecibelsA is null && rig.Recorder is null;

    private static double? CoverageOf(MidSidePair pair, Decibels threshold) => R(Coverage.Of(pair, threshold, Reference)?.Value);

    private static Hertz? Low(MicrophoneChoice choice) => choice.Setting.LowHertz is { } low ? new(low) : null;

    // Bands stop where the rate or the lower of the two microphones stops.
    private static Hertz? Highest(PlannedRig rig, Outing outing) =>
        new(Math.Min(Math.Min(rig.Mid.Setting.HighHertz ?? 20_000, rig.Side.Setting.HighHertz ?? 20_000), outing.RateHertz / 2));

    private static double R(double value) => Math.Round(value, 4);

    private static double? R(double? value) => JsonNumber.Finite(value, 4);

    private static double? Finite(double value) => JsonNumber.Finite(value, 4);
}
