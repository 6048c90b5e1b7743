using System.Text.Json;

namespace Athwart.Jobs.Cut;

/// <summary>Reads a file of rules and refuses what cannot be meant.</summary>
public static class CutRuleReader
{
    /// <summary>Reads a file.</summary>
    /// <exception cref="JobException">It cannot be read, or breaks a rule; the place is named.</exception>
    public static CutRules Read(string path)
    {
        try
        {
            return Parse(File.ReadAllText(path), path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new JobException(JobErrorKind.WrongUse, $"{path}: the rules cannot be read: {e.Message}", "Name a file that is there.");
        }
    }

    /// <summary>Reads a text.</summary>
    /// <param name="text">The JSON.</param>
    /// <param name="name">What to call it in a message.</param>
    public static CutRules Parse(string text, string name)
    {
        CutRules? rules;
        try
        {
            rules = JsonSerializer.Deserialize(text, CutJson.Readable.CutRules);
        }
        catch (JsonException e)
        {
            throw Broken(name, e.Message.Split(" Path:")[0] + (e.Path is { Length: > 1 } path ? $" (at {path[2..]})" : ""));
        }

        return Checked(rules ?? throw Broken(name, "the file holds nothing"), name);
    }

    private static CutRules Checked(CutRules rules, string name)
    {
        if (!string.Equals(rules.Kind, CutRules.KindName, StringComparison.Ordinal))
            throw Broken(name, $"kind is '{CutRules.KindName}'");
        if (rules.Version is < 1 or > CutRules.CurrentVersion)
            throw Broken(name, $"version {rules.Version} is not known; this program knows up to {CutRules.CurrentVersion}");
        if (rules.Rules.Count == 0)
            throw Broken(name, "rules holds at least one rule");
        for (var i = 0; i < rules.Rules.Count; i++)
            Check(rules.Rules[i], $"{name}: rules[{i}]");
        return rules;
    }

    private static void Check(CutRule rule, string place)
    {
        var (find, treat) = (rule.Find, rule.Treat);
        Within(find.OnsetDecibels, 6, 60, place, "find.onsetDecibels");
        Within(find.JoinSeconds, 0, 60, place, "find.joinSeconds");
        Within(find.RowSeconds, 0.05, 10, place, "find.rowSeconds");
        Within(find.LeastSeconds, 0, 86400, place, "find.leastSeconds");
        Within(find.BeforeSeconds, 0, 60, place, "find.beforeSeconds");
        Within(find.AfterSeconds, 0, 60, place, "find.afterSeconds");
        Within(treat.FadeInSeconds, 0, 3600, place, "treat.fadeInSeconds");
        Within(treat.FadeOutSeconds, 0, 3600, place, "treat.fadeOutSeconds");
        if (treat.SideLevelDecibels is { } level)
            Within(level, -120, 60, place, "treat.sideLevelDecibels");
        if (string.IsNullOrWhiteSpace(rule.Name))
            throw Broken(place, "name is not empty");
        FadeWords.Parse(treat.FadeCurve);
    }

    private static void Within(double value, double low, double high, string place, string field)
    {
        if (!(value >= low && value <= high))
            throw Broken(place, FormattableString.Invariant($"{field} lies between {low} and {high}, not {value}"));
    }

    private static JobException Broken(string place, string rule) =>
        new(JobErrorKind.WrongUse, $"{place}: broken rule: {rule}.", "Start from what 'athwart cut rules' prints.");
}
