using static System.FormattableString;

namespace Athwart.Metering.LineUp;

/// <summary>From sounds assigned to directions to the measured rig.</summary>
internal sealed class LineUpSolver(SoundPair pair, LineUpSettings settings, LineUpSounds found)
{
    /// <summary>A of a cardioid: the mid's pattern when nothing is known.</summary>
    public const double UsualPattern = 0.5;

    private const double OddsOfCorrelation = 12;
    private const double MostPatternDecibels = 3;

    private readonly List<string> _assumptions = found.Assumption.Length > 0 ? [found.Assumption] : [];

    /// <summary>Measures everything, roles first, then polarity, then the numbers that rest on both.</summary>
    public LineUpResult Solve()
    {
        var search = LagSearch.Search(pair, WithSigns(), pair.Frames(settings.DirectMilliseconds), pair.Frames(settings.MaximumDelayMilliseconds));
        var uncut = LineUpAnalysis.Cut(pair, settings, found, _ => search.Lag, swapped: false);
        var firstIsMid = uncut.Count == 0 ? Verdict.CannotTell("every sound lies at the edge of the take") : RoleDecision.FirstIsMid(pair, uncut);
        var swapped = !firstIsMid.Answer;
        // With the order assumed, sounds that wind hid shift all others to a wrong direction; a front that looks like one says they did not.
        var inverted = found.OrderIsAssumed && !firstIsMid.IsKnown ? Verdict.CannotTell("no order was given, and the first sounds do not look like sounds from the front") : Polarity(search);
        var sign = inverted.Answer ? -1 : 1;
        var lag = swapped ? -search.Lag : search.Lag;
        int Signed(LineUpDirection d) => inverted.IsKnown && Math.Abs(d.Sine) > 0.5 ? sign * Math.Sign(d.Sine) : 0;
        IReadOnlyList<DirectionSums> sums = swapped ? [.. uncut.Select(s => new DirectionSums(s.Direction, [.. s.Sounds.Select(x => x.Swapped())]))] : uncut;
        // Spacing makes each direction's delay its own: cut again, each with its own, so that both channels show the same stretch of sound.
        var lags = sums.DistinctBy(s => s.Direction).ToDictionary(s => s.Direction, s => s.Delay(lag, Signed(s.Direction)) is { IsKnown: true } d ? (int)Math.Round(d.Value) : lag);
        int Lag(LineUpDirection d) => lags.GetValueOrDefault(d, lag);
        sums = LineUpAnalysis.Cut(pair, settings, found, d => swapped ? -Lag(d) : Lag(d), swapped);
        var loudest = sums.Select(s => s.MidDecibels).DefaultIfEmpty(0).Max();
        var directions = sums.Select(s => Measure(s, Lag(s.Direction), Signed(s.Direction), loudest)).ToList();
        var measured = PatternFit.Fit(sums, pair, pair.Cut[swapped ? 1 : 0]);
        var (pattern, patternDecibels) = Pattern(measured);
        double Expected(LineUpDirection d) => 20 * Math.Log10(Math.Abs(d.Sine) / Math.Max(0.01, Math.Abs(pattern + ((1 - pattern) * d.Cosine))));
        var gain = firstIsMid.IsKnown ? Gain(directions, Expected, patternDecibels) : Estimate.CannotTell("it is not known which channel is the mid");
        var angle = Angle(directions, gain, sign, inverted.IsKnown, pattern);
        if (gain.IsKnown && angle.IsKnown && Math.Abs(angle.Value - 90) > angle.Uncertainty)
            gain = gain with { Value = gain.Value - (20 * Math.Log10(Math.Cos((angle.Value - 90) * Math.PI / 180))) };
        var (delay, forward, left) = SpacingFit.Fit(directions, pair.Rate / settings.SpeedOfSound);
        var quiet = new QuietParts(pair, found.Onsets);
        var result = new LineUpResult
        {
            SampleRateHertz = pair.Rate,
            FirstIsMid = firstIsMid,
            SideInverted = inverted,
            GainOffset = gain,
            Delay = delay,
            SpacingForward = forward,
            SpacingLeft = left,
            SideAngle = angle,
            MeasuredMidPattern = measured,
            MidPattern = pattern,
            Response = firstIsMid.IsKnown ? ResponseFit.Measure(sums, gain, Expected) : [],
            Noise = [quiet.Measure(0, Loud(uncut, first: true)), quiet.Measure(1, Loud(uncut, first: false))],
            Sounds = sums.SelectMany(s => s.Sounds.Select(x => Sound(s, x))).OrderBy(s => s.Onset).ToList(),
            Directions = directions,
            Assumptions = _assumptions,
            Findings = [],
        };
        return result with { Findings = Plausibility.Judge(result, sums) };
    }

    private static IEnumerable<int> Loud(IReadOnlyList<DirectionSums> sums, bool first) => sums.SelectMany(s => s.Sounds)
        .Where(s => s.SignalOverNoise(DirectionSums.LowHertz, DirectionSums.HighHertz) is var snr && (first ? snr.A : snr.B) > 10)
        .Select(s => s.Onset);

    private static LineUpSound Sound(DirectionSums direction, DirectSound sound)
    {
        var (a, b) = sound.SignalOverNoise(DirectionSums.LowHertz, DirectionSums.HighHertz);
        return new(sound.Onset, direction.Direction, sound.RatioDecibels(DirectionSums.LowHertz, DirectionSums.HighHertz), Math.Max(a, b), sound.IsSustained);
    }

    private static LineUpDirectionMeasure Measure(DirectionSums sums, int lag, int sign, double loudest) => new()
    {
        Direction = sums.Direction,
        Sounds = sums.Sounds.Count,
        MidLevel = sums.SignalOverNoise().Mid > 3
            ? Estimate.Of(sums.MidDecibels - loudest, DirectionSums.Coverage * sums.LoudnessDeviation / Math.Sqrt(sums.Sounds.Count))
            : Estimate.CannotTell($"from the {sums.Direction.Name} the mid does not stand out of the noise"),
        SideOverMid = sums.RatioDecibels(),
        SignedRatio = sums.SignedRatio(),
        Delay = sums.Delay(lag, sign),
    };

    private List<(int Onset, int Sign)> WithSigns() =>
        [.. found.Onsets.Select((o, i) => (o, found.Directions[found.Groups![i]].Sine is var sine && Math.Abs(sine) > 0.3 ? Math.Sign(sine) : 0))];

    private static Verdict Polarity(LagSearch.Result search) =>
        Verdict.FromOdds(OddsOfCorrelation * (search.Inverted - search.Upright), "mid and side are not clearly in phase or opposed in the sounds from left and right");

    /// <summary>The pattern the gain rests on, and by how many dB it may be wrong.</summary>
    private (double Pattern, double Decibels) Pattern(Estimate measured)
    {
        if (settings.MidPattern is { } given)
        {
            _assumptions.Add(Invariant($"The mid's pattern was given: A = {given:0.00}."));
            return (given, 0);
        }

        var usualFits = !measured.IsKnown || Math.Abs(measured.Value - UsualPattern) <= measured.Uncertainty;
        var decibels = measured.IsKnown ? 20 * Math.Log10(1 + (measured.Uncertainty / Math.Max(0.01, measured.Value))) : 0;
        if (!usualFits && decibels <= MostPatternDecibels)
        {
            _assumptions.Add(Invariant($"The mid's pattern was solved from front, sides and rear, all sounds taken as equally loud: A = {measured.Value:0.00}."));
            return (measured.Value, decibels);
        }

        _assumptions.Add(measured.IsKnown
            ? Invariant($"The mid was taken as a cardioid (A = 0.50); front, sides and rear give A = {measured.Value:0.00} ± {measured.Uncertainty:0.00}.")
            : "The mid was taken as a cardioid (A = 0.50); a hypercardioid would put the gain offset 6 dB lower.");
        return (UsualPattern, 0);
    }

    private static Estimate Gain(List<LineUpDirectionMeasure> directions, Func<LineUpDirection, double> expected, double patternDecibels)
    {
        var known = directions.Where(d => Math.Abs(d.Direction.Sine) > 0.5 && d.SideOverMid.IsKnown).ToList();
        if (known.Count == 0)
            return Estimate.CannotTell("neither left nor right stands out of the noise in both channels");
        // Left and right weigh the same, however many directions each has: what turns the rig a little then cancels.
        var sides = known.GroupBy(d => d.Direction.Sine > 0)
            .Select(s => (Value: s.Average(d => d.SideOverMid.Value - expected(d.Direction)), Uncertainty: s.Max(d => d.SideOverMid.Uncertainty)))
            .ToList();
        var noise = Math.Sqrt(sides.Sum(s => s.Uncertainty * s.Uncertainty)) / sides.Count;
        var apart = sides.Max(s => s.Value) - sides.Min(s => s.Value);
        var spread = apart > 4 * noise ? apart / 2 : 0;
        return Estimate.Of(sides.Average(s => s.Value), Math.Sqrt((noise * noise) + (spread * spread) + (patternDecibels * patternDecibels)));
    }

    /// <summary>Where the side's positive lobe points: side over mid at the front is −g·sin e for a side e too far round to the left.</summary>
    private static Estimate Angle(List<LineUpDirectionMeasure> directions, Estimate gain, int sign, bool signKnown, double pattern)
    {
        if (!gain.IsKnown || !signKnown)
            return Estimate.CannotTell("it needs the gain offset and the polarity");
        var seen = directions
            .Where(d => Math.Abs(d.Direction.Sine) < 0.1 && d.SignedRatio.IsKnown)
            .Select(d => (Measure: d, PickUp: pattern + ((1 - pattern) * d.Direction.Cosine), Turn: -sign * Math.Sign(d.Direction.Cosine)))
            .Where(d => Math.Abs(d.PickUp) > 0.2)
            .ToList();
        if (seen.Count == 0)
            return Estimate.CannotTell("it needs a sound from the front that stands out of the noise");
        var scale = Math.Pow(10, -gain.Value / 20);
        // The gain was seen through cos e, so that the ratio is the tangent.
        var turns = seen.Select(d => (
            Degrees: Math.Atan(d.Turn * d.Measure.SignedRatio.Value * d.PickUp * scale) * 180 / Math.PI,
            Uncertainty: d.Measure.SignedRatio.Uncertainty * Math.Abs(d.PickUp) * scale * 180 / Math.PI)).ToList();
        var weights = turns.Sum(t => 1 / (0.01 + (t.Uncertainty * t.Uncertainty)));
        var mean = turns.Sum(t => t.Degrees / (0.01 + (t.Uncertainty * t.Uncertainty))) / weights;
        return Estimate.Of(90 + mean, Math.Sqrt(1 / weights));
    }
}
