namespace Athwart.Catalogue;

/// <summary>What a job wants of a library.</summary>
public enum LibraryAccess
{
    /// <summary>Look only. An older schema is still brought up to date first.</summary>
    Read = 0,

    /// <summary>Change a library that is there.</summary>
    Write,

    /// <summary>Change a library, making it first where there is none.</summary>
    Create,
}
