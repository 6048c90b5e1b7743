using System.Text.RegularExpressions;

namespace Athwart.House.Tests;

public sealed partial class DocumentationTests
{
    // What docs/ must hold: one page a job, and the pages that pages and code refer to.
    private static string[] Required { get; } =
    [
        "glossary", "sources", "decisions", "kit", "rig", "take-in", "check", "decode", "cut", "deliver", "render", "verify", "salvage",
        "demo", "findings", "recipe", "manifest", "exit-codes", "safety",
    ];

    public static TheoryData<string> Pages() => [.. Required];

    [Theory]
    [MemberData(nameof(Pages))]
    public void ThePage_IsThereAndHasAHeading(string page) =>
        Assert.StartsWith("# ", Repository.Read($"docs/{page}.md"), StringComparison.Ordinal);

    [Fact]
    public void EveryLinkOfEveryPage_LeadsSomewhere()
    {
        var links = Repository.Files("*.md").SelectMany(file => Markdown.Links(file, Repository.Read(file))).ToList();

        Assert.NotEmpty(links);
        Assert.Empty(links.Where(link => !Resolves(link)).Select(link => $"{link.File}:{link.Line}: {link.Target}"));
    }

    [Theory]
    [InlineData("docs/glossary.md", true)]
    [InlineData("docs/glossary.md#take", true)]
    [InlineData("docs/glossary.md#no-such-word", false)]
    [InlineData("docs/no-such-page.md", false)]
    public void ALink_ResolvesOnlyToAFileAndAnAnchorThatAreThere(string target, bool resolves) =>
        Assert.Equal(resolves, Resolves(new("README.md", 1, target)));

    /// <summary>Comments in the code name their source as docs/sources.md#anchor and their words as docs/glossary.md#anchor.</summary>
    [Fact]
    public void EveryPageNamedInTheCode_IsThere()
    {
        var dead = Repository.Files("*.cs")
            .Where(file => !file.StartsWith("tests/House.Tests/", StringComparison.Ordinal))
            .SelectMany(file => PageInCode().Matches(Repository.Read(file)).Select(match => new PageLink("README.md", 0, match.Value))
                .Where(link => !Resolves(link))
                .Select(link => $"{file}: {link.Target}"));

        Assert.Empty(dead);
    }

    [Fact]
    public void TheReadme_ShowsExactlyTheTwoCommands()
    {
        var commands = Markdown.Blocks("README.md", Repository.Read("README.md")).SelectMany(block => block.Lines);

        Assert.Equal(["dotnet run --project src/Cli -c Release -- demo", "dotnet test"], commands, StringComparer.Ordinal);
    }

    [Fact]
    public void TheChangelog_HasAnUnreleasedPart() =>
        Assert.Matches("(?m)^## Unreleased$", Repository.Read("CHANGELOG.md"));

    [Fact]
    public void TheContinuousIntegration_RunsTheCommandsOfTheReadme()
    {
        var script = Repository.Read(".ci/run");

        Assert.Contains("dotnet run --project src/Cli -c Release -- demo", script, StringComparison.Ordinal);
        Assert.Contains(" dotnet test <", script, StringComparison.Ordinal);
    }

    [Fact]
    public void NoFile_RefersToWhatANewcomerCannotRead()
    {
        // Put together here so that this file does not hold the words itself.
        string[] words = ["seed " + "document", "trans" + "cript"];

        var mentions = Repository.Files()
            .Where(file => !file.EndsWith(".lock.json", StringComparison.Ordinal) && IsText(file))
            .SelectMany(file => words.Where(word => HoldsWord(Repository.Read(file), word)).Select(word => $"{file}: {word}"));

        Assert.Empty(mentions);
    }

    /// <summary>Scripts rely on the kind of a finding, so a kind that the code makes stands in the list.</summary>
    [Fact]
    public void EveryKindOfFinding_IsListedInFindings()
    {
        var listed = Repository.Read("docs/findings.md");
        var missing = Repository.Files("*.cs")
            .Where(file => file.StartsWith("src/", StringComparison.Ordinal))
            .Select(Repository.Read)
            .Where(code => code.Contains("FindingSeverity", StringComparison.Ordinal) || code.Contains("class FindingKinds", StringComparison.Ordinal))
            .SelectMany(code => KindInCode().Matches(code).Select(match => match.Groups["it"].Value))
            .Distinct(StringComparer.Ordinal)
            .Where(kind => !listed.Contains($"`{kind}`", StringComparison.Ordinal));

        Assert.Empty(missing);
    }

    [Theory]
    [InlineData("as the minutes say", false)]
    [InlineData("the MINUTE says", true)]
    [InlineData("minute", true)]
    public void AWord_IsFoundWholeOnly(string text, bool holds) => Assert.Equal(holds, HoldsWord(text, "minute"));

    // Longer words that begin alike mean something else.
    private static bool HoldsWord(string text, string word)
    {
        for (var at = text.IndexOf(word, StringComparison.OrdinalIgnoreCase); at >= 0; at = text.IndexOf(word, at + 1, StringComparison.OrdinalIgnoreCase))
        {
            if (at + word.Length == text.Length || !char.IsLetter(text[at + word.Length]))
                return true;
        }

        return false;
    }

    private static bool IsText(string file) => Path.GetExtension(file) is
        ".cs" or ".md" or ".csproj" or ".props" or ".targets" or ".slnx" or ".json" or ".txt" or ".sh" or ".c" or ".h" or ".html" or ".css" or ".js" or ".sql" or ".svg" or "";

    private static bool Resolves(PageLink link)
    {
        if (link.Target.StartsWith("https://", StringComparison.Ordinal) || link.Target.StartsWith("mailto:", StringComparison.Ordinal))
            return true;
        var parts = link.Target.Split('#', 2);
        var folder = Path.GetDirectoryName(Repository.PathOf(link.File))!;
        var target = parts[0].Length == 0 ? Repository.PathOf(link.File) : Path.GetFullPath(Path.Combine(folder, parts[0]));
        return Path.Exists(target) && (parts.Length == 1 || Markdown.Anchors(File.ReadAllText(target)).Contains(parts[1]));
    }

    [GeneratedRegex(@"docs/[a-z-]+\.md(#[A-Za-z0-9_-]+)?", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 10000)]
    private static partial Regex PageInCode();

    // As a property, as the first word of a helper that makes findings, and as a list of constants.
    [GeneratedRegex("""((\bKind = "|const string \w+ = ")(?<it>[a-z]+(-[a-z0-9]+)+)")|("(?<it>[a-z]+(-[a-z0-9]+)+)",\s*FindingSeverity\.)""", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 10000)]
    private static partial Regex KindInCode();
}
