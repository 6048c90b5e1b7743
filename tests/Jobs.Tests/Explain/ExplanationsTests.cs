using System.Reflection;
using System.Text.RegularExpressions;
using Athwart.Jobs.Explain;
using Athwart.Metering;

namespace Athwart.Jobs.Tests.Explain;

public static partial class ExplanationsTests
{
    [Fact]
    public static void EveryKindOfThePage_IsExplained_AndEveryExplanationIsOnThePage()
    {
        var page = File.ReadAllText(Path.Combine(Repository(), "docs", "findings.md"));
        var kinds = Row().Matches(page).SelectMany(m => Word().Matches(m.Groups["kinds"].Value)).Select(m => m.Groups["kind"].Value).ToList();
        Assert.NotEmpty(kinds);
        Assert.Equal(kinds.Order(StringComparer.Ordinal), Explanations.All.Select(e => e.Kind).Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    [Fact]
    public static void EveryKindThatTheMetersFind_IsExplained()
    {
        var found = typeof(FindingKinds).Assembly.GetTypes().Where(t => t.Name is "FindingKinds" or "FaultKinds" or "LineUpKinds")
            .SelectMany(t => t.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic)).Where(f => f.IsLiteral).Select(f => (string)f.GetRawConstantValue()!);
        Assert.All(found, kind => Assert.NotNull(Explanations.Of(kind)));
    }

    [Fact]
    public static void AnExplanation_IsWholeSentences_AndKindsAreFoundInAnyCase()
    {
        Assert.All(Explanations.All, e => Assert.All((string[])[e.What, e.Heard, e.Avoid], text => Assert.EndsWith(".", text, StringComparison.Ordinal)));
        Assert.Equal("flat-tops", Explanations.Of("Flat-Tops")!.Kind);
        Assert.Null(Explanations.Of("gremlins"));
    }

    private static string Repository()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Athwart.slnx")))
            folder = Path.GetDirectoryName(folder)!;
        return folder;
    }

    [GeneratedRegex("^[|] (?<kinds>`[^|]*) [|]", RegexOptions.Multiline | RegexOptions.ExplicitCapture | RegexOptions.NonBacktracking)]
    private static partial Regex Row();

    [GeneratedRegex("`(?<kind>[a-z0-9-]+)`", RegexOptions.ExplicitCapture | RegexOptions.NonBacktracking)]
    private static partial Regex Word();
}
