namespace Athwart.Tests.Shared;

/// <summary>A new empty folder that is removed, with what the test left in it, at the end.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("athwart-test-").FullName;

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose()
    {
        // Originals are read-only by design, and so are their folders for some tests.
        if (!OperatingSystem.IsWindows())
        {
            foreach (var folder in Directory.EnumerateDirectories(Path, "*", SearchOption.AllDirectories))
                System.IO.File.SetUnixFileMode(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }

        Directory.Delete(Path, recursive: true);
    }
}
