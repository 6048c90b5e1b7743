using System.Globalization;

namespace Athwart.Jobs.Cut;

/// <summary>Names cuts by a pattern and numbers the variations.</summary>
internal static class CutNames
{
    /// <summary>Names the proposals of a session; those whose name is alike are numbered in the order wanted.</summary>
    /// <param name="cuts">Proposals with the words of their take and label, in order of place.</param>
    /// <param name="taken">Names the takes have already: by take, what is not to be given again.</param>
    public static IReadOnlyList<CutProposal> Number(IReadOnlyList<NamedCut> cuts, IReadOnlyDictionary<string, IReadOnlySet<string>> taken)
    {
        var names = new string[cuts.Count];
        foreach (var group in cuts.Select((cut, at) => (cut, at, Stem: Stem(cut))).GroupBy(c => c.Stem, StringComparer.OrdinalIgnoreCase))
        {
            var ordered = group.OrderBy(c => Rank(c.cut)).ThenBy(c => c.at).ToList();
            var digits = ordered.Count > 99 ? 3 : 2;
            var number = 0;
            foreach (var (cut, at, stem) in ordered)
            {
                string name;
                do
                {
                    number++;
                    name = Numbered(stem, number, digits, ordered.Count > 1);
                }
                while (taken.TryGetValue(cut.Proposal.Take, out var used) && used.Contains(name));
                names[at] = name;
            }
        }

        return [.. cuts.Select((cut, at) => cut.Proposal with { Name = names[at] })];
    }

    private static string Stem(NamedCut cut) => cut.Pattern
        .Replace("{take}", cut.Proposal.Take, StringComparison.OrdinalIgnoreCase)
        .Replace("{scene}", cut.Scene.Length > 0 ? cut.Scene : cut.Proposal.Take, StringComparison.OrdinalIgnoreCase)
        .Replace("{label}", cut.Label.Length > 0 ? cut.Label : cut.Scene.Length > 0 ? cut.Scene : cut.Proposal.Take, StringComparison.OrdinalIgnoreCase)
        .Trim();

    private static string Numbered(string stem, int number, int digits, bool several)
    {
        var text = number.ToString(CultureInfo.InvariantCulture);
        if (stem.Contains("{n", StringComparison.OrdinalIgnoreCase))
        {
            return stem.Replace("{nnn}", text.PadLeft(3, '0'), StringComparison.OrdinalIgnoreCase)
                .Replace("{nn}", text.PadLeft(2, '0'), StringComparison.OrdinalIgnoreCase)
                .Replace("{n}", text, StringComparison.OrdinalIgnoreCase);
        }

        return several || number > 1 ? stem + " " + text.PadLeft(digits, '0') : stem;
    }

    private static double Rank(NamedCut cut) => cut.Order switch
    {
        CutOrder.Height => -(cut.Proposal.HeightDecibels ?? double.NegativeInfinity),
        CutOrder.Length => -cut.Proposal.Seconds,
        _ => 0,
    };
}

/// <summary>A proposal before it has its name.</summary>
/// <param name="Proposal">The cut.</param>
/// <param name="Pattern">The rule's pattern.</param>
/// <param name="Label">The marker's label; empty when there is none.</param>
/// <param name="Scene">The take's scene; empty when there is none.</param>
/// <param name="Order">The rule's order.</param>
internal sealed record NamedCut(CutProposal Proposal, string Pattern, string Label, string Scene, CutOrder Order);
