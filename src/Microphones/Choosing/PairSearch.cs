using Athwart.Microphones.Equipment;
using Athwart.Microphones.Levels;
using Athwart.Microphones.Patterns;
using Athwart.Quantities;

namespace Athwart.Microphones.Choosing;

/// <summary>Searches a kit for the pairs that do what is asked: every mid with every figure-8, each recorder, each side level.</summary>
/// <remarks>
/// The same kit and wishes give the same answer in the same order. A figure that is not known rejects nothing: the pair is kept, says
/// so, and comes after all pairs whose asked figures are known.
/// </remarks>
public sealed class PairSearch
{
    /// <summary>Further than this from the wanted coverage a pair is rejected, in degrees of the full angle. A choice of ours.</summary>
    public const double FarthestDegrees = 20;

    /// <summary>More points than any level within <see cref="FarthestDegrees"/> can have.</summary>
    private const double TooFar = 1e6;

    private static readonly Recorder?[] NoRecorder = [null];

    private readonly Wishes _wishes;
    private readonly SideLevels _levels;
    private readonly IReadOnlyList<Recorder?> _recorders;
    private readonly IReadOnlyList<MicrophoneChoice> _all;
    private readonly Dictionary<(MicrophoneSetting Setting, Recorder? Recorder), ChannelFigures> _channels = [];
    private readonly Scoring _scoring;
    private readonly Purse _purse;

    private PairSearch(Kit kit, Wishes wishes)
    {
        _wishes = wishes;
        _levels = new(wishes.Threshold, wishes.SideLevel);
        _all = [.. MicrophoneChoice.All(kit)];
        _recorders = RecordersOf(kit, wishes);
        _purse = new(kit, wishes);
        _scoring = new(wishes, _purse.StepOfCost);
    }

    /// <summary>Searches.</summary>
    /// <exception cref="ArgumentException">The kit has no recorder of the wanted name.</exception>
    public static Choice Run(Kit kit, Wishes wishes)
    {
        ArgumentNullException.ThrowIfNull(kit);
        ArgumentNullException.ThrowIfNull(wishes);
        return new PairSearch(kit, wishes).Run();
    }

    private static IReadOnlyList<Recorder?> RecordersOf(Kit kit, Wishes wishes)
    {
        if (wishes.Recorder is not { } name)
        {
            if (kit.Recorders.Count == 0)
                return NoRecorder;
            return kit.Recorders;
        }

        return [kit.Recorders.FirstOrDefault(r => r.Name.Equals(name, StringComparison.OrdinalIgnoreCase))
            ?? throw new ArgumentException($"The kit has no recorder '{name}'; it has {(kit.Recorders.Count == 0 ? "none" : string.Join(", ", kit.Recorders.Select(r => $"'{r.Name}'")))}.", nameof(wishes))];
    }

    private Choice Run()
    {
        var sides = _all.Where(c => c.Setting.Pattern.IsFigureEight()).ToList();
        var candidates = new List<Candidate>();
        foreach (var (mid, side) in _all.SelectMany(_ => sides, (mid, side) => (mid, side)))
        {
            foreach (var recorder in _recorders)
                candidates.Add(Look(candidates.Count, mid, side, recorder));
        }

        var fit = candidates.Where(c => c.Shortfalls.Count == 0).ToList();
        _scoring.Score(fit);
        // The best recorder for each pair; ties by the order of the kit, so that the answer is the same every time.
        var ranked = fit.OrderBy(c => c.NotKnown.Count).ThenBy(c => c.Score).ThenBy(c => c.Order).DistinctBy(c => (c.Mid, c.Side)).ToList();
        var accepted = ranked.Select(c => (c.Mid, c.Side)).ToHashSet();
        var rejected = candidates.Where(c => !accepted.Contains((c.Mid, c.Side))).GroupBy(c => (c.Mid, c.Side))
            .Select(g => g.OrderBy(c => c.Shortfalls.Count).ThenBy(c => c.Order).First())
            .Select(c => new RejectedPair(c.Mid, c.Side, c.Recorder, c.Shortfalls)).ToList();
        return new(Ranking.Of(ranked, _wishes), rejected, [.. Remarks(sides)]);
    }

    private IEnumerable<string> Remarks(List<MicrophoneChoice> sides)
    {
        if (_all.Count == 0)
            yield return "The kit has no microphone; add some with 'kit add' or 'kit import'";
        else if (sides.Count == 0)
            yield return "The kit has no figure-8, and only a figure-8 can be the side: its two lobes of opposite polarity are what the decode adds to the left and takes from the right";
        else if (_all.Count == sides.Count)
            yield return "The kit has figure-8s only; a figure-8 can be the mid too, and hears as loud behind as ahead";
        if (_recorders[0] is null)
            yield return "The kit has no recorder: gains, input noise and monitoring are left out";
        if (_wishes.Coverage is null && _wishes.SideLevel is null)
            yield return "No coverage was asked for: every pair is taken at a side level of 0 dB";
    }

    private Candidate Look(int order, MicrophoneChoice mid, MicrophoneChoice side, Recorder? recorder)
    {
        var (midFigures, sideFigures) = (Channel(mid.Setting, recorder), Channel(side.Setting, recorder));
        var coverages = _levels.Coverages(mid.Setting.Pattern, side.Setting.Pattern);
        var level = BestLevel(coverages, midFigures.Noise, sideFigures.Noise);
        var toBuy = Purchases.Of(mid.Microphone, side.Microphone, recorder, _wishes.Protection);
        var coverage = coverages[level];
        var candidate = new Candidate
        {
            Order = order,
            Mid = mid,
            Side = side,
            Recorder = recorder,
            SideLevel = _levels.Levels[level],
            Coverage = coverage,
            CoverageError = coverage is { } c && _wishes.Coverage is { } wanted ? Math.Abs(c.Value - wanted.Value) : null,
            Noise = midFigures.Noise is { } m && sideFigures.Noise is { } s ? DecodedNoise.Combine(m, s, _levels.Levels[level].Value) : null,
            MonoNoise = midFigures.Noise,
            MidGain = midFigures.Gain?.GainDecibels,
            SideGain = sideFigures.Gain?.GainDecibels,
            Weight = mid.Microphone.WeightGrams + side.Microphone.WeightGrams + (_wishes.Protection is { } p ? p.WeightGrams : 0),
            ToBuy = toBuy,
            Cost = Purchases.Sum(toBuy),
            Comparable = _purse.Comparable(toBuy),
        };
        Checks.Run(candidate, _wishes, midFigures.Gain, sideFigures.Gain, _purse);
        return candidate;
    }

    private ChannelFigures Channel(MicrophoneSetting setting, Recorder? recorder)
    {
        if (!_channels.TryGetValue((setting, recorder), out var figures))
            _channels[(setting, recorder)] = figures = ChannelFigures.Of(setting, recorder, _wishes);
        return figures;
    }

    // Where the coverage is nearest, weighed against the noise the side brings; the lower level where two are alike.
    private int BestLevel(Degrees?[] coverages, double? midNoise, double? sideNoise)
    {
        if (_wishes.Coverage is not { } wanted)
            return _levels.Levels.Length == 1 ? 0 : _levels.Levels.IndexOf(Decibels.Unity);
        var (best, least) = (coverages.Length - 1, double.PositiveInfinity);
        for (var n = 0; n < coverages.Length; n++)
        {
            if (coverages[n] is not { } coverage)
                continue;
            var noise = midNoise is { } m && sideNoise is { } s ? DecodedNoise.Combine(m, s, _levels.Levels[n].Value) : 0;
            var error = Math.Abs(coverage.Value - wanted.Value);
            // Less noise is worth some degrees, never so many that the pair is rejected for it.
            var points = error > FarthestDegrees ? TooFar + error : _scoring.LevelPoints(error, noise);
            if (points < least)
                (best, least) = (n, points);
        }

        return best;
    }
}
