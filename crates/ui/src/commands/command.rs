//! The commands as plain data. Each group is carried out in one place.

/// A command, by the part of the program that carries it out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Command {
    /// The board as a whole: its files and changes of it.
    Board(BoardCommand),
    /// What is seen.
    View(ViewCommand),
    /// How it looks.
    Look(LookCommand),
    /// Help.
    Help(HelpCommand),
    /// Shots, and playing them.
    Rally(RallyCommand),
    /// Pages.
    Page(PageCommand),
    /// Comparing shots.
    Compare(CompareCommand),
    /// What is drawn.
    Draw(DrawCommand),
    /// Built-in boards, and work left by a crash.
    Library(LibraryCommand),
    /// What really happened.
    Chart(ChartCommand),
    /// Showing and practising.
    Teach(TeachCommand),
}

/// The board as a whole: its files and changes of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "label and hint of each stand in the catalogue")]
pub enum BoardCommand {
    NewBoard,
    NewRed,
    NewOrange,
    NewGreen,
    DemoBoard,
    Open,
    Save,
    SaveAs,
    Export,
    CopyPicture,
    Quit,
    Undo,
    Redo,
    SwapHitter,
    Mirror,
    MirrorBoard,
    SwapHands,
    ResetReceipt,
    ResetHitter,
    Snap,
    Metres,
    Feet,
}

/// What is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "label and hint of each stand in the catalogue")]
pub enum ViewCommand {
    Fit,
    ZoomIn,
    ZoomOut,
    Turn,
    Flip,
    TurnedFreely,
    Upright,
    Lying,
    Clean,
    Eyes,
    EyesAlone,
    EyesBehind,
    Panel,
    ToCourt,
    ShowField,
    ShowWedge,
    ShowReplies,
    ShowBisector,
    ShowRun,
}

/// How it looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "label and hint of each stand in the catalogue")]
pub enum LookCommand {
    ColoursSurface,
    ColoursPaper,
    ColoursBright,
    ThemeSystem,
    ThemeLight,
    ThemeDark,
    LargerText,
    SmallerText,
    LanguageSystem,
    LanguageEnglish,
    LanguageGerman,
}

/// Help.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "label and hint of each stand in the catalogue")]
pub enum HelpCommand {
    Guide,
    Finder,
    How,
    Shortcuts,
    Hints,
}

/// Shots, and playing them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "label and hint of each stand in the catalogue")]
pub enum RallyCommand {
    NextShot,
    PreviousShot,
    AddShotAfter,
    AddShotBefore,
    DuplicateShot,
    DeleteShot,
    Follow,
    CoachOther,
    RecoverToMiddle,
    RecoverToSpot,
    Play,
    StepOn,
    StepBack,
    LeavePlaying,
    Loop,
    PaceTrue,
    PaceHalf,
    PaceQuarter,
    LetThemPlay,
    PlayAnotherWay,
    ShowRally,
}

/// Pages.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "label and hint of each stand in the catalogue")]
pub enum PageCommand {
    NextPage,
    PreviousPage,
    AddPage,
    AddPattern,
    PageWords,
    DuplicatePage,
    DeletePage,
    PageUp,
    PageDown,
    ShowPages,
}

/// Comparing shots.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "label and hint of each stand in the catalogue")]
pub enum CompareCommand {
    Compare,
    CompareShots,
    CompareAim,
    CompareTurn,
    CompareNet,
    ShowGhosts,
    ShowAim,
    ShowNet,
    AimToMiddle,
    AddTarget,
    Approach,
}

/// What is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "label and hint of each stand in the catalogue")]
pub enum DrawCommand {
    ToolHand,
    ToolSelect,
    ToolBallWay,
    ToolPlayerWay,
    ToolPen,
    ToolWords,
    ToolCone,
    ToolBasket,
    ToolPerson,
    ToolZone,
    ToolOval,
    ToolEraser,
    NextInk,
    InkPlain,
    InkCoached,
    InkOther,
    InkBall,
    InkWarning,
    CutMarks,
    CopyMarks,
    PasteMarks,
    DuplicateMarks,
    DeleteMarks,
    ChooseAllMarks,
    SwapPattern,
    AppearWithShot,
    AppearWithAngle,
    AppearWithReplies,
    AppearWithAnswer,
    ShowDrill,
    ShowSketch,
    ShowWords,
    ShowAllMarks,
    ShowTools,
}

/// Built-in boards, and work left by a crash.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "label and hint of each stand in the catalogue")]
pub enum LibraryCommand {
    Library,
    LeftWork,
}

/// What really happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "label and hint of each stand in the catalogue")]
pub enum ChartCommand {
    Room,
    Note,
    Audit,
    Measure,
    WithBoard,
    Alone,
    Move,
    Open,
    Save,
    Import,
    Season,
    Roster,
    Shots,
    Summary,
    Report,
    Scouting,
    Chapters,
    Moments,
}

/// Showing and practising.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "label and hint of each stand in the catalogue")]
pub enum TeachCommand {
    Present,
    Rehearse,
}
