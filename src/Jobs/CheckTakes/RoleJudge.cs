using System.Globalization;
using Athwart.Jobs.LineUp;
using Athwart.Jobs.Roles;
using Athwart.Quantities;

namespace Athwart.Jobs.CheckTakes;

/// <summary>Weighs what statistics say of a pair against what is known of it: the recordist's word, track names, the line-up.</summary>
/// <remarks>
/// Log odds add up. What the weights rest on: of files whose tracks are named mid and side we take 1 in 150 to be wrong, of what a
/// recordist says of a take 1 in 100, of a session 1 in 20; the line-up counts as its own probability. Our choice, no source.
/// </remarks>
internal static class RoleJudge
{
    private const string Swapped = "roles-swapped", Decoded = "already-decoded";

    /// <summary>Statistics that say nothing: a pair is seldom swapped.</summary>
    private const double Prior = -3;

    private const double Said = 0.5, Sure = 0.95, Claimed = 0.7, Worth = 0.1;

    /// <summary>The same findings, those on roles with the probability that all evidence gives together.</summary>
    public static IEnumerable<Finding> Weigh(IEnumerable<Finding> findings, RoleAssignment roles, RigProfileDocument? rig)
    {
        var all = findings.ToList();
        var names = Names(roles);
        var lineUp = LineUp(roles, rig);
        var swapped = all.Find(f => f.Kind is Swapped);
        var decoded = all.Find(f => f.Kind is Decoded);
        all.RemoveAll(f => f.Kind is Swapped or Decoded);
        if (roles.SideChannel is null)
            return all;
        if (Judge(swapped, [names, lineUp], SwappedByKnowledge) is { } s)
            all.Add(s);
        var says = roles.SaysLeftRight ? new Weight("the track names say left and right", 3) : names is null ? null : names with { LogOdds = Math.Max(names.LogOdds, -4) };
        if (decoded is not null && Judge(decoded, [says], null) is { } d)
            all.Add(d);
        return all;
    }

    private static Finding? Judge(Finding? byStatistics, IEnumerable<Weight?> knowledge, Func<double, string, Finding>? create)
    {
        var known = knowledge.OfType<Weight>().ToList();
        if (known.Count == 0 || (byStatistics is null && known.TrueForAll(k => k.LogOdds <= 0)))
            return byStatistics;
        var odds = (byStatistics is null ? Prior : Odds.Of(byStatistics.Confidence)) + known.Sum(k => k.LogOdds);
        var p = Odds.ToProbability(odds);
        if (p < (byStatistics is null ? Said : Worth))
            return null;
        var words = string.Join("; ", known.Select(k => k.Words));
        var finding = byStatistics ?? create!(p, words);
        var alone = byStatistics is null ? "" : string.Create(CultureInfo.InvariantCulture, $" By statistics alone it would be {100 * byStatistics.Confidence:0} %; but {words}: {100 * p:0} % in all.");
        return finding with
        {
            Severity = p >= Sure ? FindingSeverity.Caution : FindingSeverity.Note,
            Confidence = p,
            Size = 100 * p,
            SizeUnit = "%",
            Message = byStatistics is null ? finding.Message : Plain(byStatistics.Message, p) + alone,
            Evidence =
            [
                .. finding.Evidence,
                .. byStatistics is null ? Array.Empty<Evidence>() : [new("by statistics alone", 100 * byStatistics.Confidence, "%")],
                .. known.Select(k => new Evidence("weight of this: " + k.Words, k.LogOdds, "log odds")),
            ],
        };
    }

    // A probability that other evidence overrules must not stand at the head of the sentence.
    private static string Plain(string message, double p) => p >= Claimed ? message : "Perhaps, but not likely: " + char.ToLowerInvariant(message[0]) + message[1..];

    private static Finding SwappedByKnowledge(double p, string words) => new()
    {
        Kind = Swapped,
        Severity = FindingSeverity.Note,
        Message = string.Create(CultureInfo.InvariantCulture, $"With a probability of {100 * p:0} % the channel taken for the side is the mid: {words}. Decoded like this, stereo is out of phase and mono is the side alone."),
        Remedy = "Listen to the channels one by one; say which is which with --mid and --side, or with roles.",
    };

    /// <summary>What speaks for the roles as they are, below 0.</summary>
    private static Weight? Names(RoleAssignment roles) => roles.Evidence switch
    {
        RoleEvidence.TrackFunction or RoleEvidence.TrackName => new("the track names say so as it is", -5),
        RoleEvidence.TakeSetting => new("you said so for this take", -4.6),
        RoleEvidence.SessionSetting => new("you said so for the session", -3),
        _ => null,
    };

    private static Weight? LineUp(RoleAssignment roles, RigProfileDocument? rig)
    {
        if (rig?.MidChannel is not { } mid || rig.SideChannel is not { } side)
            return null;
        var weight = Math.Abs(Odds.Of(Math.Clamp(rig.RolesProbability, 0.5, 0.999)));
        var words = string.Create(CultureInfo.InvariantCulture, $"the line-up of {rig.Measured ?? "this rig"} has the mid on channel {mid}");
        if (mid == roles.MidChannel + 1)
            return new(words + ", as here", -weight);
        return mid == roles.SideChannel + 1 && side == roles.MidChannel + 1 ? new(words + string.Create(CultureInfo.InvariantCulture, $", and here it is taken from channel {roles.MidChannel + 1}"), weight) : null;
    }

    private sealed record Weight(string Words, double LogOdds);
}
