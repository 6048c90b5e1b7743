using System.Xml.Linq;

namespace Athwart.House.Tests;

/// <summary>One reference from a project to another, both by name.</summary>
internal sealed record ProjectArrow(string From, string To)
{
    public override string ToString() => $"{From} -> {To}";
}

/// <summary>The project references of src/, and the arrows that may be there.</summary>
internal static class ProjectGraph
{
    /// <summary>Arrows point one way: commands to jobs, jobs to the middle projects, all to the quantities.</summary>
    private static Dictionary<string, string[]> Allowed { get; } = new(StringComparer.Ordinal)
    {
        ["Cli"] = ["Jobs", "Quantities"],
        ["Desk"] = ["Jobs", "Quantities"],
        ["Jobs"] = ["Microphones", "Recordings", "Signals", "Metering", "Catalogue", "Figures", "Scenes", "Quantities"],
        ["Microphones"] = ["Quantities"],
        ["Recordings"] = ["Quantities"],
        ["Signals"] = ["Quantities"],
        ["Metering"] = ["Signals", "Quantities"],
        ["Scenes"] = ["Signals", "Quantities"],
        ["Catalogue"] = ["Quantities"],
        ["Figures"] = ["Quantities"],
        ["Quantities"] = [],
    };

    public static IReadOnlyList<string> ForbiddenIn(IEnumerable<ProjectArrow> arrows) =>
    [
        .. arrows
            .Where(arrow => !Allowed.TryGetValue(arrow.From, out var targets) || !targets.Contains(arrow.To, StringComparer.Ordinal))
            .Select(arrow => arrow.ToString()),
    ];

    public static IReadOnlyList<ProjectArrow> Arrows() =>
        [.. SourceProjects().SelectMany(file => ReferencesIn(Path.GetFileNameWithoutExtension(file), Repository.Read(file)))];

    public static IReadOnlyList<ProjectArrow> ReferencesIn(string project, string projectXml) =>
    [
        .. XDocument.Parse(projectXml).Descendants("ProjectReference")
            .Select(reference => ((string?)reference.Attribute("Include") ?? "").Replace('\\', '/'))
            .Select(path => new ProjectArrow(project, Path.GetFileNameWithoutExtension(path))),
    ];

    public static IEnumerable<string> SourceProjects() =>
        Repository.Files("*.csproj").Where(file => file.StartsWith("src/", StringComparison.Ordinal));
}
