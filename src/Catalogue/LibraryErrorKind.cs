namespace Athwart.Catalogue;

/// <summary>Why the library could not do what was asked.</summary>
public enum LibraryErrorKind
{
    /// <summary>The folder holds no library, or the database in it belongs to another program.</summary>
    NotALibrary = 0,

    /// <summary>A newer version of the program has changed the library; this version must not touch it.</summary>
    NewerSchema,

    /// <summary>Another process held the library for longer than we wait.</summary>
    Busy,

    /// <summary>The database is damaged.</summary>
    Damaged,

    /// <summary>What was named is not in the library.</summary>
    NotFound,

    /// <summary>What was asked contradicts what is there, or the name means more than one thing.</summary>
    Conflict,

    /// <summary>The disk of the library has no space left.</summary>
    DiskFull,

    /// <summary>The library cannot be read or written where it is: rights, a read-only disk, a failing disk.</summary>
    Inaccessible,
}
