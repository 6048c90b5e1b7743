using System.Diagnostics;
using System.Globalization;
using System.Reflection;
using System.Runtime.CompilerServices;

namespace Athwart.Catalogue.Tests;

/// <summary>This assembly started once more as a process of its own, to write into a library that others write into too.</summary>
internal static class ChildProcess
{
    private const string FolderVariable = "ATHWART_TEST_WRITER_FOLDER";
    private const string NameVariable = "ATHWART_TEST_WRITER_NAME";

    public const int Writes = 25;

    public static Process Start(string libraryFolder, string name)
    {
        var start = new ProcessStartInfo("dotnet") { UseShellExecute = false, RedirectStandardError = true };
        start.ArgumentList.Add("exec");
        start.ArgumentList.Add(Assembly.GetExecutingAssembly().Location);
        start.Environment[FolderVariable] = libraryFolder;
        start.Environment[NameVariable] = name;
        return Process.Start(start) ?? throw new InvalidOperationException("dotnet did not start");
    }

#pragma warning disable CA2255 // Runs before the entry point that the test runner generates, which is what is wanted here.
    [ModuleInitializer]
#pragma warning restore CA2255
    internal static void WriteAndEndWhenChild()
    {
        if (Environment.GetEnvironmentVariable(FolderVariable) is not { Length: > 0 } folder)
            return;
        var name = Environment.GetEnvironmentVariable(NameVariable);
        using (var library = Library.Open(folder, LibraryAccess.Create))
        {
            var session = library.GetOrAddSession("shared", LibraryFixture.Day);
            for (var i = 0; i < Writes; i++)
                library.SaveFile(LibraryFixture.FileOf(session, string.Create(CultureInfo.InvariantCulture, $"{name}/{i}.wav")));
        }

        Environment.Exit(0);
    }
}
