namespace Athwart.House.Tests;

/// <summary>The clone these tests were built in, read as text.</summary>
internal static class Repository
{
    private static HashSet<string> BuiltFolders { get; } = new(StringComparer.Ordinal)
    {
        "bin", "obj", "artifacts", ".git", "TestResults", "athwart-demo", "work", ".vs",
    };

    public static string Root { get; } = FindRoot();

    public static string PathOf(params string[] parts) => Path.Combine([Root, .. parts]);

    public static string Read(string relativePath) => File.ReadAllText(PathOf(relativePath));

    /// <summary>Every file that people write, relative to the root, with forward slashes; nothing built.</summary>
    public static IEnumerable<string> Files(string pattern = "*") => Walk(Root)
        .Where(file => System.IO.Enumeration.FileSystemName.MatchesSimpleExpression(pattern, Path.GetFileName(file)))
        .Select(file => Path.GetRelativePath(Root, file).Replace('\\', '/'))
        .Order(StringComparer.Ordinal);

    private static IEnumerable<string> Walk(string folder)
    {
        foreach (var file in Directory.EnumerateFiles(folder))
            yield return file;
        foreach (var child in Directory.EnumerateDirectories(folder))
        {
            if (BuiltFolders.Contains(Path.GetFileName(child)))
                continue;
            foreach (var file in Walk(child))
                yield return file;
        }
    }

    private static string FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Athwart.slnx")))
                return folder.FullName;
        }

        throw new InvalidOperationException($"no Athwart.slnx above {AppContext.BaseDirectory}");
    }
}
