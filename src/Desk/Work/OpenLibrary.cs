using Athwart.Catalogue;

namespace Athwart.Desk.Work;

/// <summary>The library of this desk, kept open for looking things up; jobs open it for themselves.</summary>
internal sealed class OpenLibrary(DeskOptions options) : IDisposable
{
    private readonly Lock _turn = new();
    private Library? _library;

    /// <summary>Something in the library changed; every page that shows it looks again.</summary>
    public event EventHandler? Changed;

    /// <summary>The folder, a full path.</summary>
    public string Folder => options.Library;

    /// <summary>Whether there is a library yet: the first take-in makes it.</summary>
    public bool Exists => File.Exists(Path.Combine(Folder, Library.DatabaseName));

    /// <summary>Looks something up; <paramref name="none"/> while there is no library.</summary>
    public T Read<T>(Func<Library, T> look, T none)
    {
        ArgumentNullException.ThrowIfNull(look);
        return Opened() is { } library ? look(library) : none;
    }

    /// <summary>Tells every page that something changed.</summary>
    public void Tell() => Changed?.Invoke(this, EventArgs.Empty);

    public void Dispose()
    {
        lock (_turn)
            _library?.Dispose();
    }

    private Library? Opened()
    {
        lock (_turn)
            return _library ??= Exists ? Library.Open(Folder, LibraryAccess.Write) : null;
    }
}
