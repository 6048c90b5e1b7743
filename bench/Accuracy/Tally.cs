using Athwart.Quantities;
using Athwart.Scenes;

namespace Athwart.Accuracy;

/// <summary>How one fault fared in one half of the takes.</summary>
internal sealed class Tally
{
    public int Planted { get; private set; }

    public int Found { get; private set; }

    public int WrongRole { get; private set; }

    public List<double> Errors { get; } = [];

    public int Edges { get; private set; }

    public int EdgesMet { get; private set; }

    public double Tolerance { get; private set; }

    public string NumberName { get; private set; } = "";

    /// <summary>Takes what the check said; returns what was wrong with it, or null.</summary>
    public string? Add(Planted planted, IReadOnlyList<Finding> findings, IReadOnlyList<TruthItem> truth)
    {
        Planted++;
        var said = findings.Where(f => planted.Kinds.Contains(f.Kind, StringComparer.Ordinal)).ToList();
        if (said.Count == 0)
            return "missed";
        Found++;
        var right = planted.Role is null ? said : said.FindAll(f => f.Role == planted.Role);
        if (right.Count == 0)
            WrongRole++;
        var wrong = right.Count == 0 ? "wrong role" : null;
        if (planted.Number is { } number && planted.Judged)
        {
            var error = (right.Count > 0 ? right : said).Select(number.Error).MinBy(Math.Abs);
            (NumberName, Tolerance) = (number.Name, number.Tolerance);
            Errors.Add(error);
            wrong ??= Math.Abs(error) > number.Tolerance ? FormattableString.Invariant($"{number.Name} {number.True:0.###} off by {error:0.###}") : null;
        }

        if (planted.EdgesOf is { } kind && !Meets(said, truth.Where(i => string.Equals(i.Kind, kind, StringComparison.Ordinal)).ToList()))
            wrong ??= "edges " + string.Join(' ', said.Select(f => $"{f.Range?.From.Value}-{f.Range?.To.Value}")) + " true " + string.Join(' ', truth.Where(i => string.Equals(i.Kind, kind, StringComparison.Ordinal)).Select(i => $"{i.Role} {i.Range.From.Value}-{i.Range.To.Value} n{i.Places.Count}"));
        return wrong;
    }

    /// <summary>Whether first and last frame of what was said are those of the truth.</summary>
    private bool Meets(List<Finding> said, List<TruthItem> truth)
    {
        if (truth.Count == 0)
            return true;
        Edges++;
        // Runs beyond full scale of fewer than three samples are no finding; the longest run must be met.
        var runs = truth.SelectMany(i => i.Places.Count > 0 ? i.Places : [i.Range]).ToList();
        var longest = runs.MaxBy(r => r.Length.Value);
        var met = said.Exists(f => f.Range is { } r && runs.Exists(x => x.From == r.From) && runs.Exists(x => x.To == r.To || x.Length.Value == 0) && (r.From.Value <= longest.From.Value || said.Count > 1));
        EdgesMet += met ? 1 : 0;
        return met;
    }
}
