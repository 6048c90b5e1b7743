using System.Xml.Linq;

namespace Athwart.House.Tests;

public sealed class ProjectGraphTests
{
    [Fact]
    public void EveryProjectReference_FollowsAnArrowOfTheHouse() =>
        Assert.Empty(ProjectGraph.ForbiddenIn(ProjectGraph.Arrows()));

    [Fact]
    public void TheTreeHasArrowsToJudge() => Assert.NotEmpty(ProjectGraph.Arrows());

    [Theory]
    [InlineData("Signals", "Recordings")]
    [InlineData("Quantities", "Signals")]
    [InlineData("Catalogue", "Jobs")]
    [InlineData("Cli", "Metering")]
    [InlineData("Stranger", "Quantities")]
    public void AnArrowThatIsNotInTheHouse_IsNamed(string from, string to)
    {
        var project = $"""<Project><ItemGroup><ProjectReference Include="..\{to}\{to}.csproj" /></ItemGroup></Project>""";

        var forbidden = ProjectGraph.ForbiddenIn(ProjectGraph.ReferencesIn(from, project));

        Assert.Equal([$"{from} -> {to}"], forbidden);
    }

    [Fact]
    public void EveryProject_IsInTheSolution()
    {
        var listed = XDocument.Parse(Repository.Read("Athwart.slnx")).Descendants("Project")
            .Select(project => (string?)project.Attribute("Path") ?? "")
            .Order(StringComparer.Ordinal);

        Assert.Equal(Repository.Files("*.csproj"), listed, StringComparer.Ordinal);
    }

    [Fact]
    public void EverySourceProject_HasATestProject()
    {
        var untested = ProjectGraph.SourceProjects()
            .Select(file => Path.GetFileNameWithoutExtension(file))
            .Where(name => !File.Exists(Repository.PathOf("tests", $"{name}.Tests", $"{name}.Tests.csproj")));

        Assert.Empty(untested);
    }

    [Fact]
    public void EveryProject_HasALockFileBesideIt()
    {
        var unlocked = Repository.Files("*.csproj")
            .Where(file => !File.Exists(Repository.PathOf(Path.GetDirectoryName(file)!, "packages.lock.json")));

        Assert.Empty(unlocked);
    }

    [Fact]
    public void PackageVersions_AreNamedInOnePlace()
    {
        var strays = Repository.Files("*.csproj")
            .Where(file => XDocument.Parse(Repository.Read(file)).Descendants("PackageReference")
                .Any(reference => reference.Attribute("Version") is not null || reference.Attribute("VersionOverride") is not null));

        Assert.Empty(strays);
    }
}
